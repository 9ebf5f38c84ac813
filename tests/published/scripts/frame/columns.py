"""What else may have happened to a base: the columns that each story adds to the observations.

Observations are the n points of the base, then all witnesses, three rows each. Columns are the displacements of the points.
"""
from dataclasses import dataclass

import numpy as np
from rigid import levers

STATION = 30.0
FLOOR_HEIGHT, FLOOR_LENGTH = 100.0, 200.0


@dataclass(frozen=True)
class Story:
    """kind: shift, body, lean or turn. members: rows of the base that move. columns: (points, 3, q)."""

    kind: str
    label: str
    members: frozenset
    columns: np.ndarray


def stations(values):
    """Lists of indices, sorted: a value under 30 mm from the one before it belongs to the same station."""
    order = sorted(range(len(values)), key=lambda i: values[i])
    lists = [[order[0]]]
    for before, i in zip(order, order[1:]):
        if values[i] - values[before] < STATION:
            lists[-1].append(i)
        else:
            lists.append([i])
    return lists


def named_sets(base):
    """(label, members): each point, name, side, cut along the length and across the height, ends, middle, all."""
    n = len(base)
    sets = [("point " + base.ids[i], [i]) for i in range(n)]
    sets += [("name " + name, [i for i in range(n) if base.names[i] == name]) for name in dict.fromkeys(base.names)]
    sets += [(word, [i for i in range(n) if base.sides[i] == side]) for word, side in (("left", "L"), ("right", "R"))]
    along, across = stations(base.reference[:, 0]), stations(base.reference[:, 2])
    for lists, axis, upper, lower in ((along, 0, "ahead of", "behind"), (across, 2, "above", "below")):
        for k in range(1, len(lists)):
            below, above = sum(lists[:k], []), sum(lists[k:], [])
            cut = (base.reference[below, axis].max() + base.reference[above, axis].min()) / 2
            sets += [(f"{upper} {cut:g}", above), (f"{lower} {cut:g}", below)]
    if len(along) > 2:
        sets += [("both ends", along[0] + along[-1]), ("the middle", sum(along[1:-1], []))]
    sets.append(("all", list(range(n))))
    return [(label, frozenset(members)) for label, members in sets if members]


def without_doubles(sets, n, witnessed):
    """One entry a set; without witnesses a set and the rest are one story: the smaller has moved, and three must stand."""
    kept = {}
    for label, members in sets:
        rest = frozenset(range(n)) - members
        if not witnessed and (len(members) > len(rest) or len(rest) < 3 or rest in kept):
            continue
        kept.setdefault(members, label)
    return [(label, members) for members, label in kept.items()]


def shifted(members, count):
    columns = np.zeros((count, 3, 3))
    columns[sorted(members)] = np.eye(3)
    return columns


def set_stories(base, places):
    count, witnessed = len(places), len(places) > len(base)
    stories = []
    for label, members in without_doubles(named_sets(base), len(base), witnessed):
        stories.append(Story("shift", label, members, shifted(members, count)))
        if len(members) >= 3:
            rows = sorted(members)
            columns = np.zeros((count, 3, 6))
            columns[rows] = levers(places[rows], places[rows].mean(axis=0)) * [1, 1, 1, 1e-3, 1e-3, 1e-3]
            stories.append(Story("body", label, members, columns))
    return stories


def bend_stories(base, places, centre):
    """Leans (sideways and up) and turns (about the length through the centre) that grow by the metre beyond a station."""
    n, count = len(base), len(places)
    low, high = base.reference.min(axis=0), base.reference.max(axis=0)
    at_floor = np.array([n <= i and low[2] - FLOOR_HEIGHT <= places[i, 2] <= high[2] + FLOOR_HEIGHT
                         and low[0] - FLOOR_LENGTH <= places[i, 0] <= high[0] + FLOOR_LENGTH for i in range(count)])
    alone = np.arange(count) < n
    lists, stories = stations(base.reference[:, 0]), []
    for k in range(len(lists) - 1):
        for word, sign, begin, whole in (
                ("ahead of", 1, max(base.reference[i, 0] for i in lists[k]), k == 0),
                ("behind", -1, min(base.reference[i, 0] for i in lists[k + 1]), k == len(lists) - 2)):
            beyond = np.maximum(0, sign * (places[:, 0] - begin)) / 1000
            for who, moves in (("", alone), (" with the floor's witnesses", alone | at_floor)):
                if who and not np.any(beyond[at_floor] > 0):
                    continue
                growing = beyond * moves
                members = frozenset(int(i) for i in np.flatnonzero(growing[:n] > 0))
                label = f"{word} {begin:g}{who}"
                if count > n or not whole:
                    lean = np.zeros((count, 3, 2))
                    lean[:, 1, 0] = lean[:, 2, 1] = growing
                    stories.append(Story("lean", label, members, lean))
                turn = np.zeros((count, 3, 1))
                turn[:, 1, 0], turn[:, 2, 0] = -growing * (places[:, 2] - centre[2]), growing * (places[:, 1] - centre[1])
                stories.append(Story("turn", label, members, turn / 1000))
    return stories


def all_stories(base, places, centre):
    """places: references of the base and then of all witnesses; centre: weighted centroid of the base's references."""
    return set_stories(base, places) + bend_stories(base, places, centre)
