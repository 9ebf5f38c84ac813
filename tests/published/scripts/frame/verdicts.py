"""What follows from witnesses and stories: ties between bases, doubt, and an ambiguous stage that is settled.

Moved and still control points are asked of the readings by alignments that owe nothing to the side that is asked about.
"""
from dataclasses import dataclass

import numpy as np
from rigid import base_fit, collinear
from points import base_weights
from scipy.stats import chi2
from witnesses import by_base, groups_of, joined, stated_scatter

CERTAINLY_OFF = float(chi2.ppf(0.999, 3))
STANDS = float(chi2.ppf(0.98, 3))
HALF = 0.5


def places_alike(first, others, scope):
    """Every alignment places every point of the scope within half a tolerance of the first."""
    there = first.deviations(scope)
    return all(bool(np.all(np.abs(other.deviations(scope) - there) <= HALF * scope.tolerance)) for other in others)


def tie_broken(bases, witnesses, chassis, scope):
    """bases: Points of each, the best first; chassis: (build, elsewhere). Each is joined with the witnesses by itself."""
    fits = [joined(base, witnesses, *chassis).fit for base in bases]
    return places_alike(fits[0], fits[1:], scope), fits


def group_is_off(group):
    limit = group.points.tolerance.mean(axis=0)
    return bool(group.quadratic > CERTAINLY_OFF and np.any(np.abs(group.off) > limit))


def deleted(joint, i):
    """A member of the base by all others together: deviation (3,) and its u, build scatter counted in."""
    base, weight = joint.base, joint.weight[i] / joint.factor
    spread = joint.fit.spread(base.reference[i])[0]
    kept = np.linalg.inv(np.eye(3) - weight * spread)
    covariance = np.eye(3) / joint.weight[i] + spread @ kept
    return kept @ joint.fit.deviations(base.take([i]))[0], np.sqrt(np.diag(covariance))


def doubt(joint):
    """(every group is off by the base, ids of members off by the others); of bases of four or five only."""
    if len(joint.base) not in (4, 5) or not joint.groups:
        return False, []
    every = joint.scatter.raised == 1 and all(group_is_off(group) for group in joint.first)
    members = []
    for i in range(len(joint.base)):
        off, u = deleted(joint, i)
        if np.any((np.abs(off) > joint.base.tolerance[i]) & (np.abs(off) > 3 * u)):
            members.append(joint.base.ids[i])
    return every, members


@dataclass(frozen=True)
class Settling:
    """One story, told from its still control points alone. one_sided, scope_beyond, groups_beyond, rivals_refuted: the
    four conditions; groups: {name: quadratic form of its mean deviation}."""

    still: tuple
    moved: tuple
    side: int
    one_sided: bool
    scope_beyond: bool
    groups_beyond: bool
    rivals_refuted: bool
    groups: dict
    qualifies: bool


def seen_from(still, groups, chassis):
    build, elsewhere = chassis
    fit, _ = base_fit(still, base_weights(still, build))
    return {group.name: group for group in by_base(groups, fit, stated_scatter(elsewhere))}, fit


def side_of_moved(still, moved):
    """1 ahead, -1 behind, 0 neither."""
    if len(moved) == 0:
        return 0
    lengths, away = still.reference[:, 0], moved.reference[:, 0]
    return 1 if away.min() > lengths.max() else -1 if away.max() < lengths.min() else 0


def lengths_of(groups):
    """Where each group stands: the mean length of its points."""
    return {group.name: float(group.points.reference[:, 0].mean()) for group in groups}


def settled(stories, witnesses, chassis, scope):
    """stories: [(still Points, moved Points)], the best first. (one Settling a story, None where it cannot be told by itself;
    index of the one taken, or None). Groups at the ends count from all control points, so that they are the same for all.
    Stories that place the scope alike are one story: they neither refute nor doubt each other."""
    groups = groups_of(witnesses, np.vstack([part.reference for part in stories[0]]))
    usable = [len(still) >= 3 and not collinear(still.reference) for still, _ in stories]
    seen = [seen_from(still, groups, chassis) if use else None for (still, _), use in zip(stories, usable)]
    answers = [settling(k, stories, seen, groups, scope) if usable[k] else None for k in range(len(stories))]
    good = [k for k, answer in enumerate(answers) if answer is not None and answer.qualifies]
    alike = bool(good) and places_alike(seen[good[0]][1], [seen[k][1] for k in good[1:]], scope)
    return answers, good[0] if alike else None


def settling(k, stories, seen, groups, scope):
    still, moved = stories[k]
    mine, place = seen[k][0], lengths_of(groups)
    side = side_of_moved(still, moved)
    beyond = side != 0 and bool(np.all(side * scope.reference[:, 0] > np.max(side * still.reference[:, 0])))
    first = np.min(side * moved.reference[:, 0]) if side else np.inf
    stand = [name for name, group in mine.items() if group.quadratic <= STANDS]
    groups_beyond = side != 0 and all(side * place[name] >= first for name in mine if name not in stand)
    refuted = side != 0 and len(groups) >= 2
    for other, theirs in enumerate(seen):
        if other == k or theirs is None or not refuted or places_alike(seen[k][1], [theirs[1]], scope):
            continue
        off = [name for name in stand if theirs[0][name].quadratic > CERTAINLY_OFF]
        refuted = len(off) >= 2 and any(side * place[name] >= first for name in off)
    return Settling(still.ids, moved.ids, side, side != 0, beyond, groups_beyond, refuted,
                    {name: group.quadratic for name, group in mine.items()},
                    bool(side != 0 and beyond and groups_beyond and refuted))
