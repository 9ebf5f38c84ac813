"""Holds the methods against slower ways to the same figures. Run in this folder: /usr/bin/python3 check.py

- the joined fit by its rows of negative weight: least squares (scipy) with the full covariance of nested errors
- gain, frame and what is left: a second generalised least-squares fit with the story's columns beside the motion
- subsets at once: one by one
- the search's deleted residuals in batches: fits without the point
"""

import numpy as np
from cases import CHASSIS, divided, read_stage
from columns import all_stories
from points import base_weights
from rigid import aligned, levers
from scipy.linalg import block_diag, cholesky
from scipy.optimize import least_squares
from scipy.spatial.transform import Rotation
from search import fits
from stories import judged, model_of, told_subsets
from witnesses import joined

TIGHT = dict(method="trf", jac="3-point", xtol=1e-15, ftol=1e-15, gtol=1e-15, x_scale=[1, 1, 1, 1e-3, 1e-3, 1e-3])


def nested_covariance(group, scatter):
    """One axis: own errors, half of the shared one by side, half by group."""
    alike = np.array([[a == b for a in group.points.sides] for b in group.points.sides])
    own = np.diag((group.points.variance + scatter.own) / group.inner)
    return (own + scatter.shared / 2 * alike + scatter.shared / 2) / group.outer


def checked_fit(joint):
    used = [group for group in joint.groups if group.outer > 0]
    covariance = block_diag(np.diag(joint.factor / joint.weight),
                            *[nested_covariance(group, joint.scatter) for group in used])
    whiten = np.linalg.inv(cholesky(covariance, lower=True))
    reading = np.vstack([joint.base.reading] + [group.points.reading for group in used])
    reference = np.vstack([joint.base.reference] + [group.points.reference for group in used])
    centre = joint.fit.centre
    placed = reading @ joint.fit.rotation.T + joint.fit.translation - centre

    def residuals(x):
        return (whiten @ (Rotation.from_rotvec(x[3:]).apply(placed) + x[:3] + centre - reference)).ravel()

    found = least_squares(residuals, np.full(6, 1e-4), **TIGHT)
    assert np.abs(found.x[:3]).max() < 1e-5 and np.abs(found.x[3:]).max() < 1e-8, found.x
    lever = levers(reference, centre)
    weighted = np.einsum("ij,jka->ika", np.linalg.inv(covariance), lever)
    covariance = np.linalg.inv(np.einsum("ika,ikb->ab", weighted, lever))
    assert np.allclose(covariance, joint.fit.covariance, rtol=1e-6, atol=1e-12)


def checked_story(joint, scope, in_full):
    model = model_of(joint, in_full)
    places = np.vstack([joint.base.reference] + [group.points.reference for group in joint.groups])
    root = np.kron(cholesky(model.precision + 1e-300 * np.eye(len(places))), np.eye(3))
    observed = root @ np.vstack([joint.fit.deviations(part) for part in [joint.base] + [g.points for g in joint.groups]]).ravel()
    motion = root @ model.lever.reshape(-1, 6)
    without = np.linalg.lstsq(motion, observed, rcond=None)[0]
    before, n = np.sum((observed - motion @ without) ** 2), len(joint.base)
    for story in all_stories(joint.base, places, joint.own.centre):
        one = judged(model, story, 50, scope)
        if one is None:
            continue
        q = one.degrees
        both = np.hstack([motion, root @ story.columns.reshape(-1, q)])
        scale = np.sqrt(np.sum(both**2, axis=0))
        with_it = np.linalg.lstsq(both / scale, observed, rcond=None)[0] / scale
        left = observed - both @ with_it
        assert np.isclose(before - left @ left, one.gain, rtol=1e-6, atol=1e-7), (story.label, one.gain)
        assert np.allclose(without - with_it[:6], one.frame, atol=1e-7, rtol=1e-5), story.label
        assert np.isclose(np.sum(left[:3 * n] ** 2), one.left, rtol=1e-6, atol=1e-7), story.label


def checked_subsets(joint, scope):
    model = model_of(joint)
    for one in told_subsets(model, joint, scope)[1]:
        assert np.isclose(one.gain, judged(model, one.story, 2 ** len(joint.base), scope).gain, rtol=1e-9)
    gains = [one.gain for one in told_subsets(model, joint, scope)[1]]
    assert gains == sorted(gains, reverse=True)


def checked_search(control):
    weight = base_weights(control, CHASSIS[0])
    rows = np.array([[i for i in range(len(control)) if i != left] for left in range(len(control))])
    e, spread, chi = fits(control, weight, rows)
    for k, row in enumerate(rows):
        part = control.take(row)
        fit = aligned(part.reading, part.reference, weight[row])
        assert np.allclose(e[k], fit.deviations(part), atol=1e-8)
        assert np.allclose(spread[k], fit.spread(part.reference), rtol=1e-7, atol=1e-9)
        assert np.isclose(chi[k], weight[row] @ np.sum(fit.deviations(part) ** 2, axis=1))


def main():
    for seed, (body, count, kind) in enumerate((("long", 6, "none"), ("flat", 8, "ramp"), ("short", 6, "left half"),
                                                ("narrow", 12, "twist"), ("long", 4, "pair"))):
        rows = read_stage(body, count, kind, (0.4, 0.5, np.random.default_rng([77, seed])))
        control, witnesses, scope = divided(rows, True)
        joint = joined(control, witnesses, *CHASSIS)
        usable = all(group.outer > 0 and group.inner.min() > 0 for group in joint.groups)
        asked = levers(scope.reference, joint.own.centre), scope.tolerance
        if usable:
            checked_fit(joint)
            checked_story(joint, asked, False)
        checked_story(joint, asked, True)
        checked_subsets(joint, asked)
        checked_search(control)
        print(f"{body}, {count}, {kind}: as expected" + ("" if usable else " (weights of 0: by full weights only)"))


if __name__ == "__main__":
    main()
