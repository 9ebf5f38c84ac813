"""Is there another story that the readings tell better than "this base is sound"?

The joined fit is the hypothesis; a story is q more columns in the linear model, tested like a gross error of several
dimensions (Baarda 1968; Pelzer 1971; Caspary 1987). Its gain in chi-square must be beyond chance by the stated scatter
(chi-square) and by what the base really scatters. The latter is a moderated F: the stated variance counts as 8 degrees
of freedom (Smyth 2004). Both are divided among the stories (Bonferroni).
"""
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations

import numpy as np
from columns import Story, all_stories, shifted
from rigid import levers
from scipy.stats import chi2, f

BY_CHI_SQUARE, BY_F, PRIOR_DEGREES = 0.01, 0.05, 8.0
MOVES_FRAME, MOVED = 0.25, 0.5
LARGEST_FOR_SUBSETS = 12
HELD = 1e-6
# Where the witnesses scatter more than stated, the scatter is raised; whether the stories are told with that or as stated.
RAISED_IN_STORIES = False


@dataclass(frozen=True)
class Model:
    """precision (k, k) between points, the same on each axis; lever (k, 3, 6); residual (k, 3) of its own least-squares fit.
    normal: inverse of N. leverage: trace of the base's. turned (6,): that fit's frame, from the joined fit's."""

    precision: np.ndarray
    lever: np.ndarray
    residual: np.ndarray
    normal: np.ndarray
    leverage: float
    base_weight: np.ndarray
    turned: np.ndarray


@dataclass(frozen=True)
class Told:
    story: object
    gain: float
    degrees: int
    left: float          # chi-square of the base under the story
    freedom: float       # 8 + nu
    kappa: float
    chi_limit: float
    f_limit: float       # kappa times the quantile of F: gain / degrees must exceed it
    frame: np.ndarray    # delta (6,): shift, rotation, about the base's weighted centroid
    size: np.ndarray     # coefficients of the columns
    moves: float         # largest share of the tolerance by which it moves the scope
    from_told: float     # the same from where the joined fit places it, by which figures are told
    off: np.ndarray      # (n, 3) deviations of the base in the story's frame
    significant: bool


def group_precision(group, scatter, inner, outer):
    """The inverse of (diag((v + s²)/inner) + g² 11')/outer."""
    weight = inner / (group.points.variance + scatter.own)
    shared = scatter.shared / (1 + scatter.shared * weight.sum())
    return outer * (np.diag(weight) - shared * np.outer(weight, weight))


def model_of(joined, in_full=False, left_out=None):
    """in_full: all groups and points with weight 1; left_out: name of a group with weight 0."""
    base, n = joined.base, len(joined.base)
    points = [base] + [group.points for group in joined.groups]
    places = np.vstack([part.reference for part in points])
    precision = np.zeros((len(places), len(places)))
    precision[range(n), range(n)] = joined.weight
    at = n
    scatter = joined.scatter if RAISED_IN_STORIES else joined.scatter.times(1.0)
    for group in joined.groups:
        inner, outer = (np.ones(len(group.points)), 1.0) if in_full else (group.inner, group.outer)
        block = slice(at, at + len(group.points))
        precision[block, block] = group_precision(group, scatter, inner, 0 if group.name == left_out else outer)
        at = block.stop
    lever = levers(places, joined.own.centre)
    weighted = np.einsum("ij,jka->ika", precision, lever)
    inverse = np.linalg.inv(np.einsum("ika,ikb->ab", weighted, lever))
    observed = np.vstack([joined.fit.deviations(part) for part in points])
    turned = inverse @ np.einsum("ika,ik->a", weighted, observed)
    residual = observed - lever @ turned
    leverage = float(np.einsum("i,ika,ab,ikb->", joined.weight, lever[:n], inverse, lever[:n]))
    return Model(precision, lever, residual, inverse, leverage, joined.weight, turned)


@lru_cache(maxsize=4096)
def limits(count, q, freedom):
    return float(chi2.isf(BY_CHI_SQUARE / count, q)), float(f.isf(BY_F / count, q, freedom))


def solved(model, columns):
    """gain, coefficients and change of the frame; None where the readings cannot tell the story."""
    weighted = np.einsum("ij,jka->ika", model.precision, columns)
    own = np.einsum("ika,ikb->ab", weighted, columns)
    scale = np.sqrt(np.diag(own))
    if np.any(scale <= 0):
        return None
    cross = np.einsum("ika,ikb->ab", weighted, model.lever)
    values, vectors = np.linalg.eigh(own / np.outer(scale, scale))
    if values[0] < HELD:
        return None
    whitening = vectors / np.sqrt(values) / scale[:, None]
    held = np.eye(len(scale)) - (whitening.T @ cross) @ model.normal @ (cross.T @ whitening)
    if np.linalg.eigvalsh(held)[0] < HELD:
        return None
    g = np.einsum("ika,ik->a", weighted, model.residual)
    size = whitening @ np.linalg.solve(held, whitening.T @ g)
    return float(g @ size), size, model.normal @ cross.T @ size


def judged(model, story, count, scope):
    """scope: (lever (m, 3, 6), tolerance (m, 3))."""
    answer = solved(model, story.columns)
    if answer is None:
        return None
    gain, size, frame = answer
    n, q = len(model.base_weight), len(size)
    off = model.residual[:n] + model.lever[:n] @ frame
    left = float(model.base_weight @ np.sum((off - story.columns[:n] @ size) ** 2, axis=1))
    freedom = float(PRIOR_DEGREES + 3 * n - model.leverage - q)
    kappa = (PRIOR_DEGREES + left) / freedom
    chi_limit, f_limit = limits(count, q, freedom)
    moves, from_told = (float(np.max(np.abs(scope[0] @ motion) / scope[1], initial=0)) for motion in (frame, frame - model.turned))
    significant = gain > chi_limit and gain / q > kappa * f_limit and max(moves, from_told) > MOVES_FRAME
    return Told(story, gain, q, left, freedom, kappa, chi_limit, kappa * f_limit, frame, size, moves, from_told, off,
                bool(significant))


def subsets(base, count, witnessed, residual):
    """Every group of 2 to n - 2 of up to 12; of more, the splits along the main direction of the residuals."""
    n = len(base)
    if n > LARGEST_FOR_SUBSETS:
        centred = residual[:n] - residual[:n].mean(axis=0)
        order = np.argsort(centred @ np.linalg.svd(centred)[2][0], kind="stable")
        groups = [frozenset(int(i) for i in order[:k]) for k in range(1, n)]
    else:
        groups = [frozenset(c) for k in range(2, n - 1) for c in combinations(range(n), k)]
    if not witnessed:
        kept = {}
        for members in groups:
            rest = frozenset(range(n)) - members
            smaller = members if (len(members), sorted(members)) < (len(rest), sorted(rest)) else rest
            if n - len(smaller) >= 3:
                kept.setdefault(smaller)
        groups = list(kept)
    return groups


def promising(model, groups, limit):
    """Gains of all subsets at once, nan where it cannot be told; only those over the limit need be told in full."""
    n = len(model.base_weight)
    member = np.zeros((len(groups), n))
    for row, members in enumerate(groups):
        member[row, sorted(members)] = 1
    weight = member * model.base_weight
    cross = np.einsum("si,ika->ska", weight, model.lever[:n])
    g = weight @ model.residual[:n]
    total = weight.sum(axis=1)
    held = np.eye(3) - cross @ model.normal @ cross.transpose(0, 2, 1) / total[:, None, None]
    told = np.linalg.eigvalsh(held)[:, 0] >= HELD
    gain = np.full(len(groups), np.nan)
    gain[told] = np.einsum("sk,sk->s", g[told], np.linalg.solve(held[told], g[told, :, None])[:, :, 0]) / total[told]
    return gain


def told_subsets(model, joined, scope, keep=10):
    """(number asked, those over the limit of chi-square and the best few besides, best first)."""
    witnessed = bool(joined.groups)
    groups = subsets(joined.base, len(model.residual), witnessed, model.residual)
    if not groups:
        return 0, []
    count = 2 ** len(joined.base)
    limit = limits(count, 3, 10)[0]
    gain = promising(model, groups, limit)
    order = sorted(np.flatnonzero(~np.isnan(gain)), key=lambda i: (-gain[i], sorted(groups[i])))
    chosen = [groups[i] for rank, i in enumerate(order) if rank < keep or gain[i] > limit]
    made = [Story("subset", " ".join(joined.base.ids[i] for i in sorted(members)), members,
                  shifted(members, len(model.residual))) for members in chosen]
    told = [judged(model, story, count, scope) for story in made]
    return int(np.sum(~np.isnan(gain))), [one for one in told if one is not None]


@dataclass(frozen=True)
class Verdict:
    """named: one entry a story of named sets, leans, turns: (weighted Told, full Told or None, [Told without each group])."""

    count: int
    named: list
    asked: int
    subsets: list
    significant: list
    ambiguous: bool


def rests_on_no_group(whole, without):
    return whole is not None and whole.significant and all(one is not None and one.significant for one in without)


def verdict(joined, scope, thorough=False):
    """scope: Points whose places must not move unnoticed. thorough: leave groups out even where nothing depends on it."""
    model = model_of(joined)
    places = np.vstack([joined.base.reference] + [group.points.reference for group in joined.groups])
    asked = (levers(scope.reference, joined.own.centre), scope.tolerance)
    in_full = model_of(joined, in_full=True) if joined.groups else None
    # What cannot be told, by full weights, is no story and is not counted.
    stories = [story for story in all_stories(joined.base, places, joined.own.centre)
               if solved(in_full or model, story.columns) is not None]
    reduced = [model_of(joined, True, group.name) for group in joined.groups]
    named, significant = [], []
    for story in stories:
        weighted = judged(model, story, len(stories), asked)
        full = judged(in_full, story, len(stories), asked) if in_full else None
        without = [judged(one, story, len(stories), asked) for one in reduced] if thorough or (full and full.significant) else []
        named.append((weighted, full, without))
        if weighted is not None and weighted.significant:
            significant.append(weighted)
        elif rests_on_no_group(full, without):
            significant.append(full)
    number, told = told_subsets(model, joined, asked)
    significant += [one for one in told if one.significant]
    significant.sort(key=lambda one: chi2.logsf(one.gain, one.degrees))
    return Verdict(len(stories), named, number, told, significant, bool(significant))


def moved_members(base, told):
    """Ids of the story's members that stand over half of their tolerance off in the frame that it tells of."""
    over = np.any(np.abs(told.off) > MOVED * base.tolerance, axis=1)
    return [base.ids[i] for i in sorted(told.story.members) if over[i]]
