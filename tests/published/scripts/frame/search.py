"""The base that a stage is aligned on, searched among its control points (server/README.md, Control points).

Only for making cases and simulating: the cases state the base, so that stories are checked whatever the search does.
"""
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from points import base_weights
from rigid import aligned, birge, collinear
from scipy.stats import chi2, f

ALIKE = 9.0
CUT = 40.0


@dataclass(frozen=True)
class Found:
    """bases: lists of rows, the best first, then its rivals. reasons: of 'tie', 'dropped', 'cut', 'inconsistent'.
    zones: pairs of row lists (two bodies) where one cut or a dropped body makes the stage ambiguous."""

    bases: list
    reasons: list
    zones: list


def fits(points, weight, rows):
    """Many subsets of one size at once: rows (s, k). (deviations (s, k, 3), levers' A (s, k, 3, 3), chi-square (s,))."""
    p, q, w = points.reading[rows], points.reference[rows], weight[rows]
    total = w.sum(axis=1)[:, None]
    pm, qm = np.einsum("sk,skj->sj", w, p) / total, np.einsum("sk,skj->sj", w, q) / total
    pc, qc = p - pm[:, None], q - qm[:, None]
    u, _, vt = np.linalg.svd(np.einsum("sk,ski,skj->sij", w, pc, qc))
    flip = np.ones((len(rows), 3))
    flip[:, 2] = np.sign(np.linalg.det(u @ vt))
    rotation = np.einsum("sji,sj,skj->sik", vt, flip, u)
    e = np.einsum("sij,skj->ski", rotation, pc) - qc
    inertia = np.einsum("sk,ski,ski->s", w, qc, qc)[:, None, None] * np.eye(3) - np.einsum("sk,ski,skj->sij", w, qc, qc)
    turn = np.linalg.pinv(inertia, hermitian=True)
    cross = np.zeros((*rows.shape, 3, 3))
    x, y, z = qc[..., 0], qc[..., 1], qc[..., 2]
    cross[..., 0, 1], cross[..., 0, 2], cross[..., 1, 2] = -z, y, -x
    cross -= cross.transpose(0, 1, 3, 2)
    spread = np.eye(3) / total[:, :, None, None] + np.einsum("skij,sjl,skml->skim", cross, turn, cross)
    return e, spread, np.einsum("sk,ski,ski->s", w, e, e)


def agreement(points, weight, rows):
    """(agrees throughout (s,), sum of squares by which subsets are ranked (s,), chi-square (s,))."""
    e, spread, chi = fits(points, weight, rows)
    w, tolerance, k = weight[rows], points.tolerance[rows], rows.shape[1]
    own = 1 / w
    score = np.sum(e**2 / (own[:, :, None] + (tolerance / 3) ** 2), axis=(1, 2))
    if k == 3:
        d, u2 = e, own[:, :, None] * np.ones(3)
        return np.all(np.abs(d) <= np.maximum(tolerance, 3 * np.sqrt(u2)), axis=(1, 2)), score, chi
    left = np.eye(3) - w[:, :, None, None] * spread
    values, vectors = np.linalg.eigh((left + left.transpose(0, 1, 3, 2)) / 2)
    safe = np.where(values < 1e-6, np.inf, values)
    inverse = np.einsum("skia,ska,skja->skij", vectors, 1 / safe, vectors)
    d = np.einsum("skij,skj->ski", inverse, e)
    lost = np.einsum("skia,ska,skia->ski", vectors, (values < 1e-6) * 1.0, vectors)
    after = chi[:, None] - w * np.einsum("ski,ski->sk", e, d)
    factor = np.array([[birge(value, k - 1) for value in row] for row in after])
    factor = np.minimum(factor, 1 + (tolerance.max(axis=2) / 3) ** 2 / own)
    u2 = own[:, :, None] + factor[:, :, None] * np.einsum("skii->ski", spread @ inverse)
    return np.all((np.abs(d) <= np.maximum(tolerance, 3 * np.sqrt(np.abs(u2)))) | (lost > 0.01), axis=(1, 2)), score, chi


def trusted(points, weight, among):
    """Agreeing subsets of the largest size, best first: [(score, rows)], and chi-square of the best."""
    for size in range(len(among), 2, -1):
        rows = np.array(list(combinations(among, size)))
        agrees, score, chi = agreement(points, weight, rows)
        order = [i for i in np.argsort(score, kind="stable") if agrees[i] and not collinear(points.reference[rows[i]])]
        if order:
            return [(float(score[i]), list(map(int, rows[i])), float(chi[i])) for i in order]
    return []


def zones_of(points, weight, best, dropped):
    """Cuts across the length whose two zones explain the readings as well as one body with points left out."""
    order = np.argsort(points.reference[:, 0], kind="stable")
    n, lengths = len(points), points.reference[order, 0]
    cuts = [k for k in range(3, n - 2) if lengths[k] - lengths[k - 1] > CUT]
    count = sum(1 for k in range(1, n) if lengths[k] - lengths[k - 1] > CUT)
    found = []
    for k in cuts:
        zones = [sorted(map(int, order[:k])), sorted(map(int, order[k:]))]
        if any(collinear(points.reference[zone]) for zone in zones):
            continue
        told = [agreement(points, weight, np.array([zone])) for zone in zones]
        if not all(agrees[0] for agrees, _, _ in told):
            continue
        both = sum(chi[0] for _, _, chi in told)
        gain, q, freedom = best[2] - both, 6 - 3 * dropped, 3 * n - 12
        if dropped >= 2:
            two = min(score[0] for _, score, _ in told) <= best[0] + ALIKE
        elif dropped == 1:
            two = gain > chi2.isf(0.10 / count, q)
        else:
            two = gain > chi2.isf(0.01 / count, q) and gain / q > both / freedom * f.isf(0.20 / count, q, freedom)
        if two:
            found.append(zones)
    return found


def search(points, build, measured, by_cuts):
    """points: measured control points. measured: all measured points. by_cuts: whether zones are asked about where nothing
    was left out."""
    weight = base_weights(points, build)
    order = sorted(range(len(points)), key=lambda i: points.ids[i])
    agreeing = trusted(points, weight, order)
    if not agreeing:
        return Found([order], ["inconsistent"], [])
    best, reasons, zones = agreeing[0], [], []
    bases = [best[1]]
    first = aligned(points.reading[best[1]], points.reference[best[1]], weight[best[1]]).deviations(measured)
    for score, rows, _ in agreeing[1:]:
        if score > best[0] + ALIKE:
            break
        there = aligned(points.reading[rows], points.reference[rows], weight[rows]).deviations(measured)
        if np.any(np.abs(there - first) > measured.tolerance):
            bases.append(rows)
    if len(bases) > 1:
        reasons.append("tie")
    dropped = [i for i in order if i not in best[1]]
    if len(dropped) >= 3 and not collinear(points.reference[dropped]):
        body = trusted(points, weight, dropped)
        if body and len(body[0][1]) >= 3:
            reasons.append("dropped")
            zones.append([body[0][1], best[1]])
    if by_cuts or dropped:
        cut = zones_of(points, weight, best, len(dropped))
        reasons += ["cut"] * bool(cut)
        zones += cut
    return Found(bases, reasons, zones)
