"""Invented bodies, what happens to them, and readings of them. Nothing here was measured; no car stands behind it."""
import numpy as np
from scipy.spatial.transform import Rotation

TOLERANCE, BUILD, ELSEWHERE = 3.0, 0.5, 1.0

# (name, forward, across, up, part): both sides, across outboard. The first pairs of `control` are read first.
LONG = dict(
    control=[("floor-front", 1200, 420, 95, "floor"), ("floor-rear", -350, 455, 90, "floor"),
             ("tunnel-front", 905, 188, 242, "floor"), ("seat-rear", -60, 300, 185, "floor"),
             ("toe-board", 1520, 360, 310, "floor"), ("rear-floor", -820, 388, 296, "floor")],
    others=[("sill-front", 860, 738, 122, "sill"), ("sill-middle", 340, 740, 124, "sill"), ("sill-rear", -180, 741, 126, "sill"),
            ("pillar-foot", 385, 718, 300, "pillar"), ("pillar-belt", 352, 741, 868, "pillar"), ("pillar-top", 331, 612, 1204, "pillar"),
            ("rear-rail-root", -700, 480, 300, "rear-rail"), ("rear-rail-middle", -1300, 485, 330, "rear-rail"),
            ("rear-rail-tip", -1740, 490, 335, "rear-rail"), ("rear-panel", -1860, 470, 420, "rear-panel"),
            ("cowl", 1480, 612, 905, "cowl"), ("rail-root", 1800, 445, 220, "front-rail"),
            ("rail-middle", 2380, 448, 260, "front-rail"), ("rail-tip", 2960, 450, 290, "front-rail"),
            ("strut", 2250, 560, 830, "apron"), ("lamp", 2980, 600, 690, "apron")])
# All control points on one level floor, set wide.
FLAT = dict(
    control=[("cross-front", 1100, 560, 60, "floor"), ("cross-rear", -900, 560, 62, "floor"), ("middle", 100, 540, 58, "floor"),
             ("front-inner", 640, 240, 61, "floor"), ("rear-inner", -420, 260, 59, "floor"), ("rear-outer", -1300, 500, 64, "floor")],
    others=[("step-front", 820, 800, 90, "sill"), ("step-rear", -500, 800, 92, "sill"), ("gate-foot", 180, 780, 240, "pillar"),
            ("gate-belt", 175, 800, 900, "pillar"), ("gate-top", 160, 720, 1500, "pillar"), ("wall-front", -300, 800, 700, "wall"),
            ("wall-rear", -1700, 800, 720, "wall"), ("tail-low", -2050, 600, 150, "tail"), ("tail-high", -2080, 690, 1300, "tail"),
            ("beam-root", 1450, 420, 250, "front-rail"), ("beam-middle", 1800, 420, 260, "front-rail"),
            ("beam-tip", 2150, 420, 270, "front-rail"), ("tower", 1700, 600, 760, "apron")])
# Control points only under the front seats: nearly one-ended, far from what is judged.
SHORT = dict(
    control=[("seat-front", 760, 410, 120, "floor"), ("seat-back", 120, 430, 118, "floor"), ("brace", 450, 170, 230, "floor"),
             ("toe", 1010, 350, 300, "floor"), ("heel", 300, 500, 104, "floor"), ("kick", -40, 300, 260, "floor")],
    others=[("sill-front", 700, 700, 120, "sill"), ("sill-rear", -200, 702, 124, "sill"), ("hinge", 1150, 760, 480, "pillar"),
            ("hinge-high", 1140, 755, 760, "pillar"), ("lock", -250, 720, 520, "lock-pillar"), ("lock-high", -280, 700, 880, "lock-pillar"),
            ("bed-front", -500, 600, 420, "bed"), ("bed-rear", -1900, 600, 430, "bed"), ("frame-rear", -2100, 420, 300, "rear-rail"),
            ("rail-root", 1400, 430, 240, "front-rail"), ("rail-middle", 1900, 430, 270, "front-rail"),
            ("rail-tip", 2500, 430, 300, "front-rail"), ("strut", 1850, 570, 800, "apron")])
# Control points along the tunnel: nearly on one line, some without another side.
NARROW = dict(
    control=[("tunnel-a", 1300, 70, 260, "tunnel"), ("tunnel-d", -800, 75, 240, "tunnel"), ("tunnel-b", 650, 72, 270, "tunnel"),
             ("tunnel-c", -100, 74, 262, "tunnel"), ("plate", 300, 130, 180, "tunnel"), ("fork", -1200, 160, 300, "tunnel")],
    others=[("sill-front", 900, 690, 130, "sill"), ("sill-rear", -300, 692, 132, "sill"), ("bulkhead", 1500, 520, 700, "cowl"),
            ("bulkhead-middle", 1520, 0, 820, "cowl"), ("pillar-low", 250, 700, 350, None), ("pillar-high", 230, 640, 1100, None),
            ("tail-frame", -1650, 450, 320, "rear-rail"), ("tail-plate", -1720, 0, 400, "rear-rail"),
            ("rail-root", 1800, 410, 240, "front-rail"), ("rail-tip", 2600, 420, 260, "front-rail"), ("strut", 2150, 560, 780, "apron")])
BODIES = dict(long=LONG, flat=FLAT, short=SHORT, narrow=NARROW)
SCOPE = ("front-rail", "apron")
COUNTS = (4, 6, 8, 12)


def rows_of(entries, control):
    """One row a point; a pair has L (left, +) and R."""
    rows = []
    for name, forward, across, up, part in entries:
        for side in ("L", "R") if across else ("C",):
            rows.append(dict(id=name if side == "C" else f"{name}.{side}", side=side, part=part, control=control,
                             reference=[forward, -across if side == "R" else across, up]))
    return rows


def body_rows(name, count):
    body = BODIES[name]
    return rows_of(body["control"][:count // 2], True) + rows_of(body["others"], False)


def sound_metal(rows, random, spread):
    """spread: (build, elsewhere). Of the latter's variance half is the point's own, the rest its part's, half of that a side's."""
    build, elsewhere = spread
    parts = {(row["part"] or row["id"][:-2], side): random.normal(0, elsewhere / 2, 3) for row in rows for side in ("L", "R", "C", "all")}
    off = []
    for row in rows:
        part = row["part"] or row["id"][:-2]
        shared = parts[part, row["side"]] + parts[part, "all"]
        off.append(random.normal(0, build, 3) if row["control"] else shared + random.normal(0, elsewhere / 2**0.5, 3))
    return np.array(off)


def direction(random):
    v = random.normal(0, 1, 3)
    return v / np.linalg.norm(v)


def beyond_some_gap(lengths, random):
    """(where a bend begins, 1 ahead or -1 behind): at an inner station; of two stations, all of the base pitches or turns."""
    stations = np.unique(lengths)
    sign = 1 if random.random() < 0.5 else -1
    if len(stations) < 3:
        return stations[0] if sign > 0 else stations[-1], sign
    return stations[int(random.integers(1, len(stations) - 1))], sign


def bent(reference, control, kind, random):
    """Ramp or twist: grows from a station of the base to 6-12 mm at its far end."""
    begin, sign = beyond_some_gap(reference[control, 0], random)
    away = np.maximum(0, sign * (reference[:, 0] - begin))
    size = random.uniform(6, 12) / away[control].max()
    if kind == "ramp":
        way = direction(random) * [0, 1, 1]
        return np.outer(away * size, way / np.linalg.norm(way))
    angle = away * size / np.abs(reference[control, 1]).max()
    middle = reference[control].mean(axis=0)
    return np.column_stack([0 * angle, -(reference[:, 2] - middle[2]) * angle, (reference[:, 1] - middle[1]) * angle])


def moved_rows(reference, control, kind, random):
    n, lengths = len(control), reference[control, 0]
    if kind == "one":
        return [control[int(random.integers(n))]]
    if kind == "pair":
        k = 2 * int(random.integers(n // 2))
        return control[k:k + 2]
    if kind == "end pair":
        end = lengths.max() if random.random() < 0.5 else lengths.min()
        return control[lengths == end]
    if kind == "left half":
        return control[reference[control, 1] > 0]
    if kind in ("front half", "front zone"):
        return control[lengths > np.median(lengths)]
    if kind == "rear zone":
        return control[lengths < np.median(lengths)]
    return random.permutation(control)[:n // 2]


def damage(rows, kind, random, follow=True):
    """Displacement of every row's metal. follow: sills go with a bent floor."""
    reference = np.array([row["reference"] for row in rows], float)
    control = np.array([i for i, row in enumerate(rows) if row["control"]])
    scope = np.array([row["part"] in SCOPE for row in rows])
    off = np.zeros((len(rows), 3))
    if kind in ("ramp", "twist"):
        shape = bent(reference, control, kind, random)
        sill = np.array([follow and row["part"] == "sill" for row in rows])
        off[control], off[sill] = shape[control], shape[sill]
    elif kind == "side impact":
        left = reference[:, 1] > 0
        near = left & np.array([row["control"] or row["part"] in ("sill", "pillar") for row in rows])
        off[near] = random.uniform(4, 10) * np.array([random.normal(0, 0.2), -1, random.normal(0, 0.2)])
    elif kind == "rear rails":
        rear = np.array([row["part"] == "rear-rail" for row in rows])
        off[rear] = random.uniform(6, 15) * direction(random)
    elif kind != "none":
        size = random.uniform(6, 30) if kind in ("one", "front zone", "rear zone") else random.uniform(4, 8)
        off[moved_rows(reference, control, kind, random)] = size * direction(random)
    off[scope] += random.uniform(4, 25) * direction(random)
    return off


def instrument(random):
    return Rotation.from_euler("ZYX", random.uniform([-3, -0.1, -0.1], [3, 0.1, 0.1])), random.uniform(-4000, 4000, 3)


def read(rows, off, u, random):
    """(readings (k, 3) in the instrument's own frame, the same deviations as seen in the frame that the body was built in)."""
    turn, origin = instrument(random)
    noisy = off + random.normal(0, u, (len(rows), 3))
    return turn.apply(np.array([row["reference"] for row in rows], float) + noisy - origin), noisy
