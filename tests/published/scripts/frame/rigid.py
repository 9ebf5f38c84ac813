"""Rigid fits with weights of either sign, and what they leave uncertain.

The fit is the singular value decomposition of Arun, Huang & Blostein 1987 with Umeyama's determinant (1991). Its
covariance is that of the linearised fit (Fitzpatrick, West & Maurer 1998). A negative weight stands for an error that
several points share; see witnesses.py.
"""
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.stats import chi2


def levers(places, centre):
    """(k, 3, 6): what a shift and a small rotation about the centre do at each place."""
    r = np.atleast_2d(places) - centre
    out = np.zeros((len(r), 3, 6))
    out[:, :, :3] = np.eye(3)
    x, y, z = r.T
    out[:, 0, 4], out[:, 0, 5] = z, -y
    out[:, 1, 3], out[:, 1, 5] = -z, x
    out[:, 2, 3], out[:, 2, 4] = y, -x
    return out


@dataclass(frozen=True)
class Alignment:
    """rotation (3, 3) and translation (3,): instrument -> vehicle. covariance (6, 6): shift at the centre, rotation in rad."""

    rotation: np.ndarray
    translation: np.ndarray
    centre: np.ndarray
    covariance: np.ndarray

    def deviations(self, points):
        return points.reading @ self.rotation.T + self.translation - points.reference

    def spread(self, places):
        """A(r): (k, 3, 3) for (k, 3) places."""
        lever = levers(places, self.centre)
        return lever @ self.covariance @ lever.transpose(0, 2, 1)


def covariance_of(reference, weight):
    """(centre, 6 x 6) of the linearised fit; the centre is the weighted centroid of the references."""
    centre = weight @ reference / weight.sum()
    r = reference - centre
    inertia = np.einsum("i,ij,ij->", weight, r, r) * np.eye(3) - np.einsum("i,ij,ik->jk", weight, r, r)
    covariance = np.zeros((6, 6))
    covariance[:3, :3] = np.eye(3) / weight.sum()
    covariance[3:, 3:] = np.linalg.inv(inertia)
    return centre, covariance


def aligned(reading, reference, weight):
    p, q = weight @ reading / weight.sum(), weight @ reference / weight.sum()
    u, _, vt = np.linalg.svd((weight[:, None] * (reading - p)).T @ (reference - q))
    rotation = vt.T @ np.diag([1, 1, np.sign(np.linalg.det(vt.T @ u.T))]) @ u.T
    centre, covariance = covariance_of(reference, weight)
    return Alignment(rotation, q - rotation @ p, centre, covariance)


@lru_cache(maxsize=None)
def scatters_more(degrees):
    return float(chi2.ppf(0.99, degrees))


def birge(chi_square, count):
    """Birge's factor (1932) for a fit to `count` points: 1 unless chi-square says that they scatter more."""
    degrees = 3 * count - 6
    return chi_square / degrees if degrees > 0 and chi_square > scatters_more(degrees) else 1.0


def base_fit(base, weight):
    """(alignment with Birge's factor in its covariance, that factor)."""
    fit = aligned(base.reading, base.reference, weight)
    chi_square = float(weight @ np.sum(fit.deviations(base) ** 2, axis=1))
    factor = birge(chi_square, len(base))
    return Alignment(fit.rotation, fit.translation, fit.centre, fit.covariance * factor), factor


def collinear(reference):
    """Of the centred places the second singular value is under 10 mm per root of n, or under 1 % of the first."""
    values = np.linalg.svd(reference - reference.mean(axis=0), compute_uv=False)
    return bool(len(reference) < 3 or values[1] / np.sqrt(len(reference)) < 10 or values[1] < 0.01 * values[0])
