"""Makes ../scipy-cases.json. Run in this folder with Debian's python3-scipy: /usr/bin/python3 scipy-cases.py"""
import json
import sys

import numpy as np
import scipy
from scipy.optimize import least_squares
from scipy.spatial.transform import Rotation

random = np.random.default_rng(20240611)
TIGHT = dict(method="lm", xtol=1e-15, ftol=1e-15, gtol=1e-15, max_nfev=20000)


def rounded(values, digits=4):
    return np.round(np.asarray(values, float), digits)


def alignment(kind, n):
    to = rounded(random.uniform(-2000, 2000, (n, 3)))
    if kind == "coplanar":
        to[:, 2] = 150
    turn = Rotation.random(random_state=int(random.integers(1 << 30)))
    noise = {"exact": 0, "noisy": 0.7, "coplanar": 0.7, "poor": 300}[kind]
    origin = random.uniform(-5000, 5000, 3)
    start = turn.inv().apply(to - origin) + random.normal(0, noise, (n, 3)) if noise else turn.inv().apply(to - origin)
    start = rounded(start) if noise else start
    weights = rounded(random.uniform(0.3, 4, n))
    p, q = np.average(start, axis=0, weights=weights), np.average(to, axis=0, weights=weights)
    fitted, _ = Rotation.align_vectors(to - q, start - p, weights=weights)
    residuals = fitted.apply(start - p) - (to - q)
    case = dict(kind=kind, start=start, to=to, weights=weights, rotation=fitted.as_matrix(),
                translation=q - fitted.apply(p), chiSquare=float(np.sum(weights * np.sum(residuals**2, axis=1))),
                # z-y-x: yaw, pitch, twist
                angles=fitted.as_euler("ZYX"))
    if kind in ("noisy", "coplanar"):
        # Covariance of (shift, small rotation) about the reference's centroid, by numeric derivatives at the minimum.
        def small(x):
            moved = Rotation.from_rotvec(x[3:]).apply(to - q) + x[:3] - (to - q)
            return (np.sqrt(weights)[:, None] * moved).ravel()

        solved = least_squares(small, np.zeros(6), x_scale=[1, 1, 1, 1e-3, 1e-3, 1e-3], jac="3-point")
        covariance = np.linalg.inv(solved.jac.T @ solved.jac)
        at = rounded(random.uniform(-3000, 3000, (2, 3)))
        # columns: what a small rotation about x, y, z does at the place: e × (a − centroid)
        lever = [np.hstack([np.eye(3), np.array([np.cross(e, a - q) for e in np.eye(3)]).T]) for a in at]
        case.update(rotationCovariance=covariance[3:, 3:], places=at,
                    covarianceBetween=lever[0] @ covariance @ lever[1].T,
                    covarianceAtFirst=lever[0] @ covariance @ lever[0].T)
        # The fit of the others at one of the points.
        for left_out in (0,):
            keep = np.arange(n) != left_out
            w = weights * keep
            p2, q2 = np.average(start, axis=0, weights=w), np.average(to, axis=0, weights=w)
            others, _ = Rotation.align_vectors((to - q2)[keep], (start - p2)[keep], weights=w[keep])
            case["deletedResidual"] = others.apply(start[left_out] - p2) - (to[left_out] - q2)
    return case


def body(axis):
    """Points on one line along the axis: the angles that they fix, the others at 0."""
    axis = np.asarray(axis, float)
    start = rounded(random.uniform(-500, 500, 3) + np.outer(np.linspace(-400, 400, 4) + random.uniform(-30, 30, 4), axis))
    start = start[0] + np.outer((start - start[0]) @ axis / (axis @ axis), axis)
    to = rounded(Rotation.from_euler("ZYX", random.uniform(-0.1, 0.1, 3)).apply(start) + random.normal(0, 0.5, (4, 3)))
    weights = rounded(random.uniform(0.3, 4, 4))
    unit = axis / np.linalg.norm(axis)
    known = [k for k in range(3) if abs(unit[k]) <= 0.1]
    p, q = np.average(start, axis=0, weights=weights), np.average(to, axis=0, weights=weights)

    def residuals(x):
        angles = np.zeros(3)
        angles[known] = x
        turned = Rotation.from_euler("ZYX", angles[::-1]).apply(start - p)
        return (np.sqrt(weights)[:, None] * (turned - (to - q))).ravel()

    solved = least_squares(residuals, np.zeros(len(known)), **TIGHT)
    return dict(start=start, to=to, weights=weights, known=known, angles=solved.x)


def network():
    fixed = rounded([[0, 0, 0], [1800, 0, 30], [1800, 900, 0], [0, 900, 20], [900, 450, 600]])
    truth = rounded(random.uniform([2400, 100, 100], [3200, 800, 700], (3, 3)))
    points = np.vstack([fixed, truth])
    prior = np.vstack([fixed + random.normal(0, 0.5, fixed.shape), truth + random.uniform(-25, 25, truth.shape)])
    prior = rounded(prior)
    variances = np.array([0.25] * 5 + [2500] * 3)
    variances[0] = 0
    prior[0] = fixed[0]
    pairs = [(i, j) for i in range(8) for j in range(max(i + 1, 5), 8)]
    rows = []
    for i, j in pairs:
        level = bool(random.random() < 0.25)
        span = (points[j] - points[i]) * ([1, 1, 0] if level else [1, 1, 1])
        rows.append(dict(pair=[i, j], distance=float(rounded(np.linalg.norm(span) + random.normal(0, 1))),
                         uncertainty=float(rounded(random.uniform(0.8, 1.5))), level=level))
    free = np.arange(1, 8)

    def residuals(x):
        at = prior.copy()
        at[free] = x.reshape(-1, 3)
        spans = [np.linalg.norm((at[r["pair"][1]] - at[r["pair"][0]]) * ([1, 1, 0] if r["level"] else [1, 1, 1])) for r in rows]
        distances = [(r["distance"] - s) / r["uncertainty"] for r, s in zip(rows, spans)]
        return np.concatenate([distances, ((at[free] - prior[free]) / np.sqrt(variances[free])[:, None]).ravel()])

    solved = least_squares(residuals, prior[free].ravel(), x_scale="jac", jac="3-point", xtol=1e-15, ftol=1e-15, gtol=1e-12)
    covariance = np.linalg.inv(solved.jac.T @ solved.jac)
    return dict(prior=prior, variances=variances, distances=rows, positions=solved.x.reshape(-1, 3),
                standardUncertainties=np.sqrt(np.diag(covariance)).reshape(-1, 3),
                acrossLast=covariance[-6:-3, -3:])


def broken_line():
    s = rounded(np.cumsum(random.uniform(80, 300, 7)))
    where, slopes = random.uniform(s[2], s[4]), random.normal(0, 0.03, 2) + [0.03, -0.02]
    root = random.normal(0, 0.15, (14, 14))
    covariance = rounded(np.diag(random.uniform(0.3, 1, 14)) + root @ root.T, 6)
    truth = np.outer(np.maximum(0, s - where), slopes).ravel()
    observed = rounded(truth + np.linalg.cholesky(covariance) @ random.normal(0, 1, 14))
    whiten = np.linalg.inv(np.linalg.cholesky(covariance))

    def residuals(x):
        return whiten @ (np.outer(np.maximum(0, s - x[2]), x[:2]).ravel() - observed)

    best = None
    for start in np.linspace(s[0], s[-2], 400)[1:-1]:
        design = whiten @ np.kron(np.maximum(0, s - start)[:, None], np.eye(2))
        slope = np.linalg.lstsq(design, whiten @ observed, rcond=None)[0]
        tried = least_squares(residuals, [*slope, start], x_scale=[1e-2, 1e-2, 100], xtol=1e-15, ftol=1e-15, gtol=1e-15)
        if s[0] < tried.x[2] < s[-2] and (best is None or tried.cost < best.cost):
            best = tried
    h = best.x[2]
    beyond = (s > h).astype(float)
    jacobian = whiten @ np.column_stack([np.kron(np.maximum(0, s - h)[:, None], np.eye(2)),
                                         -np.outer(beyond, best.x[:2]).ravel()])
    uncertainties = np.sqrt(np.diag(np.linalg.inv(jacobian.T @ jacobian)))
    line = whiten @ np.kron(np.column_stack([np.ones(7), s]), np.eye(2))
    straight = whiten @ observed - line @ np.linalg.lstsq(line, whiten @ observed, rcond=None)[0]
    return dict(positions=s, offsets=observed.reshape(-1, 2), covariance=covariance, breakAt=h, slopes=best.x[:2],
                uncertainties=uncertainties, chiSquare=2 * best.cost, chiSquareZero=float(np.sum((whiten @ observed) ** 2)),
                chiSquareStraight=float(straight @ straight))


def plain(value):
    if isinstance(value, dict):
        return {key: plain(entry) for key, entry in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(entry) for entry in value]
    return value.tolist() if isinstance(value, (np.ndarray, np.generic)) else value


kinds = [("exact", 5), ("noisy", 3), ("noisy", 4), ("noisy", 6), ("noisy", 12), ("coplanar", 4), ("coplanar", 8), ("poor", 6), ("poor", 9)]
cases = dict(
    madeBy="scipy-cases.py", scipy=scipy.__version__, numpy=np.__version__, python=sys.version.split()[0],
    alignments=[alignment(kind, n) for kind, n in kinds],
    bodies=[body(axis) for axis in ([1, 0, 0], [0, 0, 1], [0.7, 0, 0.7], [0.05, 1, 0.08])],
    networks=[network() for _ in range(3)],
    brokenLines=[broken_line() for _ in range(6)],
)
with open("../scipy-cases.json", "w") as file:
    json.dump(plain(cases), file, separators=(",", ":"))
    file.write("\n")
