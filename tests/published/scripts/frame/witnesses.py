"""Witnesses: measured points that are not in question and help to align, in groups that share an error.

Each group shares an error of variance g² on each axis, each of its points scatters by s² besides (one-way variance
components: Searle, Casella & McCulloch 1992). A point, and then a group, loses weight by Tukey's biweight (Beaton &
Tukey 1974) of how far it stands from all others, which take no notice of it (deleted residuals: Belsley, Kuh & Welsch
1980).
"""
from dataclasses import dataclass, replace

import numpy as np
from rigid import aligned, base_fit
from points import base_weights

BIWEIGHT = 4.685
BEYOND_BASE = 200.0
ROUNDS = 6
SETTLED_WEIGHT = 0.03


@dataclass(frozen=True)
class Group:
    """points: the group's; inner (k,): weight of each point; outer: weight of the group; off (3,) and quadratic: its mean
    deviation by all others, and how unlikely that is (chi-square on 3)."""

    name: str
    points: object
    inner: np.ndarray
    outer: float = 0.0
    off: np.ndarray = None
    quadratic: float = 0.0


@dataclass(frozen=True)
class Scatter:
    own: float
    shared: float
    raised: float = 1.0

    def times(self, factor):
        return Scatter(self.own * factor / self.raised, self.shared * factor / self.raised, factor)


def stated_scatter(elsewhere):
    """Half of the stated variance is a point's own, half its group's."""
    return Scatter(elsewhere**2 / 2, elsewhere**2 / 2)


def biweight(quadratic):
    return (1 - quadratic / BIWEIGHT**2) ** 2 if quadratic < BIWEIGHT**2 else 0.0


def group_name(points, i, first, last):
    x = points.reference[i, 0]
    if x > last + BEYOND_BASE:
        return "front end"
    if x < first - BEYOND_BASE:
        return "rear end"
    return points.parts[i] if points.parts[i] is not None else "point " + points.names[i]


def groups_of(witnesses, base_places):
    """Groups by the part's name, points of no part by their own; beyond the base one an end. In the order of their names."""
    first, last = base_places[:, 0].min(), base_places[:, 0].max()
    members = {}
    for i in range(len(witnesses)):
        members.setdefault(group_name(witnesses, i, first, last), []).append(i)
    if len(members) < 2:
        return []
    return [Group(name, witnesses.take(members[name]), np.ones(len(members[name]))) for name in sorted(members)]


def safe_weights(group, scatter):
    """Weights that count a group's points as if each had the whole shared error m times: no covariance is needed."""
    own = group.points.variance + scatter.own
    return group.outer * group.inner / (own + group.inner.sum() * scatter.shared)


def looked_at(group, alignment, scatter):
    """The group with new weights and its mean deviation, seen from an alignment that it took no part in."""
    points, e = group.points, alignment.deviations(group.points)
    own = points.variance + scatter.own
    spread = alignment.spread(points.reference)
    covariance = (own + scatter.shared)[:, None, None] * np.eye(3) + spread
    single = np.einsum("ij,ijk,ik->i", e, np.linalg.inv(covariance), e)
    inner = np.array([biweight(q) for q in single])
    share = inner if inner.sum() > 0 else np.ones(len(points))
    mean, place = share @ e / share.sum(), share @ points.reference / share.sum()
    whole = (scatter.shared + 1 / np.sum(share / own)) * np.eye(3) + alignment.spread(place)[0]
    quadratic = float(mean @ np.linalg.solve(whole, mean))
    outer = biweight(quadratic) if inner.sum() > 0 else 0.0
    expected = np.trace(covariance, axis1=1, axis2=2) / 3
    excess = float(np.sum(inner * np.sum(e**2, axis=1) / expected))
    return replace(group, inner=inner, outer=outer, off=mean, quadratic=quadratic), excess


def by_base(groups, alignment, scatter):
    """Every group seen from control points alone."""
    return [looked_at(group, alignment, scatter)[0] for group in groups]


def weighed(base, weight, groups, stated):
    """Rounds of weights: (groups, scatter). weight: of the base, Birge's factor divided out."""
    scatter = stated
    if not groups:
        return groups, scatter
    for _ in range(ROUNDS):
        seen = []
        for group in groups:
            others = [other for other in groups if other is not group and other.outer > 0]
            reading = np.vstack([base.reading] + [other.points.reading for other in others])
            reference = np.vstack([base.reference] + [other.points.reference for other in others])
            weights = np.concatenate([weight] + [safe_weights(other, scatter) for other in others])
            seen.append(looked_at(group, aligned(reading, reference, weights), scatter))
        changed = max(max(abs(new.outer - old.outer), np.max(np.abs(new.inner - old.inner)))
                      for (new, _), old in zip(seen, groups))
        groups = [group for group, _ in seen]
        degrees = 3 * sum(group.inner.sum() for group in groups)
        if degrees > 0:
            scatter = stated.times(max(1.0, scatter.raised * sum(excess for _, excess in seen) / degrees))
        if changed < SETTLED_WEIGHT:
            break
    return groups, scatter


def nested_rows(group, scatter):
    """Rows (reading, reference, weight) whose plain weighted sum of squares is that of the group with nested errors.

    The inverse of D + h 11' is D⁻¹ - k D⁻¹ 11' D⁻¹ with k = h/(1 + hW), W = sum of D⁻¹ (Sherman & Morrison 1950): the mean
    enters once more, with weight -kW². First each side shares h = g²/2, then the group shares another g²/2.
    """
    half, points = scatter.shared / 2, group.points
    weight = group.inner / (points.variance + scatter.own)
    rows = [(points.reading[i], points.reference[i], weight[i]) for i in range(len(points))]
    sums = []
    for side in sorted(set(points.sides)):
        of_side = weight * np.array([other == side for other in points.sides])
        total = of_side.sum()
        if total <= 0:
            continue
        mean = (of_side @ points.reading / total, of_side @ points.reference / total)
        rows.append((*mean, -half * total**2 / (1 + half * total)))
        sums.append((*mean, total / (1 + half * total)))
    total = sum(row[2] for row in sums)
    if total > 0:
        mean = tuple(sum(row[2] * row[k] for row in sums) / total for k in (0, 1))
        rows.append((*mean, -half * total**2 / (1 + half * total)))
    return [(p, q, group.outer * w) for p, q, w in rows]


def joined_fit(base, weight, groups, scatter):
    """One rigid fit to base and witnesses."""
    rows = [row for group in groups if group.outer > 0 for row in nested_rows(group, scatter)]
    reading = np.vstack([base.reading] + [row[0] for row in rows])
    reference = np.vstack([base.reference] + [row[1] for row in rows])
    return aligned(reading, reference, np.concatenate([weight, [row[2] for row in rows]]))


@dataclass(frozen=True)
class Joined:
    """weight: of the base's points without Birge's factor. own: the base's fit by itself, by which first sees the groups."""

    base: object
    weight: np.ndarray
    factor: float
    own: object
    first: list
    groups: list
    scatter: Scatter
    fit: object


def joined(base, witnesses, build, elsewhere):
    weight = base_weights(base, build)
    own, factor = base_fit(base, weight)
    stated = stated_scatter(elsewhere)
    start = groups_of(witnesses, base.reference)
    groups, scatter = weighed(base, weight / factor, start, stated)
    fit = joined_fit(base, weight / factor, groups, scatter) if groups else own
    return Joined(base, weight, factor, own, by_base(start, own, stated), groups, scatter, fit)
