"""The fewest further readings with which every point that is to be judged can be decided.

A design of the network before it is measured: covariances need places and variances, no readings (Ghilani & Wolf 2006).
"""
from dataclasses import replace
from itertools import combinations

import numpy as np
from points import base_weights
from rigid import collinear, covariance_of, levers
from witnesses import groups_of, nested_rows, stated_scatter

ENOUGH, WORTH = 0.95, 0.005


class Plan:
    """points: all that are read or may be read; control: their flags; scope: what is to be judged (Points)."""

    def __init__(self, points, control, scope, chassis):
        self.points, self.control, self.scope = points, np.asarray(control, bool), scope
        self.build, self.scatter = chassis[0], stated_scatter(chassis[1])

    def value(self, ids):
        """Worst of root A_kk over T/3, over points and axes of the scope; infinite where nothing can be aligned."""
        chosen = set(ids)
        rows = np.array([name in chosen for name in self.points.ids])
        base = self.points.take(np.flatnonzero(rows & self.control))
        if len(base) < 3 or collinear(base.reference):
            return float("inf")
        witnesses = self.points.take(np.flatnonzero(rows & ~self.control))
        groups = [replace(group, outer=1.0) for group in groups_of(witnesses, base.reference)]
        extra = [row for group in groups for row in nested_rows(group, self.scatter)]
        reference = np.vstack([base.reference] + [row[1] for row in extra])
        weight = np.concatenate([base_weights(base, self.build), [row[2] for row in extra]])
        centre, covariance = covariance_of(reference, weight)
        lever = levers(self.scope.reference, centre)
        spread = np.sqrt(np.einsum("ika,ab,ikb->ik", lever, covariance, lever))
        return float(np.max(spread / (self.scope.tolerance / 3)))


    def witnessed(self, ids):
        """Whether witnesses count already: two groups of them are read."""
        chosen = set(ids)
        rows = np.array([name in chosen for name in self.points.ids])
        base = self.points.take(np.flatnonzero(rows & self.control))
        return len(base) > 0 and bool(groups_of(self.points.take(np.flatnonzero(rows & ~self.control)), base.reference))


def fall_per_item(now, value, size):
    """The logarithm, so that it has a meaning where nothing can be aligned yet."""
    return (np.log(min(now, 1e9)) - np.log(value)) / size


def best_step(plan, chosen, left):
    """(items, value) with the largest fall of the logarithm an item, or None. One item; where that aligns nothing or
    witnesses do not count yet, for they are of fewer than two groups, two are tried as well."""
    now, best = plan.value(chosen), None
    for size in (1, 2) if now == np.inf or not plan.witnessed(chosen) else (1,):
        for items in combinations(left, size):
            value = plan.value(chosen + sum((list(item) for item in items), []))
            if value == np.inf or now < np.inf and value >= now * (1 - WORTH):
                continue
            fall = fall_per_item(now, value, size)
            if best is None or fall > best[2] + 1e-12:
                best = (items, value, fall)
    return None if best is None else best[:2]


def advised(plan, read, items):
    """items: tuples of ids, a pair or a centre point. Steps in their order with the value after each; kept: what remains
    after dropping, first to last, what the rest does without; reached: whether that is enough."""
    left, chosen, steps = list(items), [], []
    before = plan.value(list(read))
    value = before
    while value > ENOUGH and left:
        step = best_step(plan, list(read) + sum((list(item) for item in chosen), []), left)
        if step is None:
            break
        chosen += step[0]
        left = [item for item in left if item not in step[0]]
        value = step[1]
        steps.append(dict(items=[list(item) for item in step[0]], value=value))
    kept = list(chosen)
    if value <= ENOUGH:
        for item in chosen:
            fewer = [other for other in kept if other != item]
            if plan.value(list(read) + sum((list(other) for other in fewer), [])) <= ENOUGH:
                kept = fewer
    after = plan.value(list(read) + sum((list(item) for item in kept), []))
    return dict(before=before, steps=steps, kept=[list(item) for item in kept], after=after, reached=after <= ENOUGH)


def exhaustive(plan, read, items, largest=3):
    """For each number of items up to `largest` the set with the least value, the first in order of equal ones."""
    answers = []
    for size in range(1, min(largest, len(items)) + 1):
        tried = [(plan.value(list(read) + sum((list(item) for item in chosen), [])), k, chosen)
                 for k, chosen in enumerate(combinations(items, size))]
        value, _, chosen = min(tried)
        answers.append(dict(count=size, items=[list(item) for item in chosen], value=value))
    return answers
