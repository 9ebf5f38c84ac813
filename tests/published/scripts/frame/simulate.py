"""Shares of wrong and of needlessly provisional bases over random stages; writes a table to standard output.

/usr/bin/python3 simulate.py STAGES-PER-ROW SEED [raised]        raised: stories are told with the raised scatter of witnesses
"""
import sys
from collections import Counter

import numpy as np
import stories
from bodies import BODIES, BUILD, ELSEWHERE, SCOPE, TOLERANCE, body_rows, damage, read, sound_metal
from points import points_of
from stage import Stage, outcome
from witnesses import joined

KINDS = ("none", "one", "pair", "end pair", "left half", "random half", "front half", "front zone", "ramp", "twist", "side impact", "rear rails")


def made(body, count, kind, settings):
    """(Stage, true displacement of control points, deviations of all by the frame the body was built in, rows)."""
    u, spread, scoped, random = settings
    rows = body_rows(body, count)
    off = damage(rows, kind, random)
    reading, seen = read(rows, sound_metal(rows, random, spread) + off, u, random)
    for row, place in zip(rows, reading):
        row.update(reading=place, variance=u * u, tolerance=[TOLERANCE] * 3)
    points = points_of(rows)
    of = np.array(["control" if row["control"] else "scope" if row["part"] in SCOPE or not scoped else "witness" for row in rows])
    control, witnesses, scope = (points.take(np.flatnonzero(of == word)) for word in ("control", "witness", "scope"))
    return Stage(control, witnesses, scope, (BUILD, ELSEWHERE)), off[of == "control"], seen[of == "scope"]


def counted(stage, off, seen):
    result = outcome(stage)
    tally = Counter(stages=1, provisional=result.provisional, doubted=bool(result.doubted[0] or result.doubted[1]),
                    told=result.verdict.ambiguous, settled_by_scope=result.taken is not None and not result.provisional)
    if result.provisional:
        return tally
    joint = result.joined
    if result.taken is not None:
        joint = joined(result.stories[result.taken][0], stage.witnesses, *stage.chassis)
    moved = {stage.control.ids[i] for i in range(len(off)) if np.abs(off[i]).max() > TOLERANCE}
    wrong = bool(moved & set(joint.base.ids))
    error = joint.fit.deviations(stage.scope) - seen
    tally.update(settled=1, wrong=wrong, accused=bool(set(stage.control.ids) - set(joint.base.ids) - moved_at_all(stage, off)),
                 far=bool(np.abs(error).max() > TOLERANCE), wrong_and_far=wrong and bool(np.abs(error).max() > TOLERANCE),
                 wrong_by_scope=wrong and result.taken is not None)
    cover(tally, joint.fit, stage.scope, error)
    cover(tally, joint.own, stage.scope, joint.own.deviations(stage.scope) - seen, "own ")
    return tally


def moved_at_all(stage, off):
    return {stage.control.ids[i] for i in range(len(off)) if np.abs(off[i]).max() > 0.5}


def cover(tally, fit, scope, error, prefix=""):
    """Errors of a part's mean shift against their 95 % interval, each axis."""
    for part in sorted({p for p in scope.parts if p}):
        rows = [i for i, one in enumerate(scope.parts) if one == part]
        place = scope.reference[rows].mean(axis=0)
        u = np.sqrt(np.diag(fit.spread(place)[0]))
        ratio = np.abs(error[rows].mean(axis=0)) / u
        tally.update({prefix + "axes": 3, prefix + "covered": int(np.sum(ratio <= 1.96)), prefix + "over 3 u": int(np.sum(ratio > 3))})


CELLS = (("scatter 0.5", 0.5, (0.5, 1.0), True, KINDS), ("scatter 0.8", 0.5, (0.8, 1.0), True, ("none", "front half", "ramp")),
         ("elsewhere 1.5", 0.5, (0.5, 1.5), True, ("none",)), ("no scope", 0.5, (0.5, 1.0), False, ("none", "front half", "ramp")))
COLUMNS = ("stages", "wrong", "wrong_and_far", "accused", "provisional", "told", "doubted", "settled_by_scope", "wrong_by_scope")


def main():
    stages, seed = int(sys.argv[1]), int(sys.argv[2])
    stories.RAISED_IN_STORIES = "raised" in sys.argv
    bodies = list(BODIES)
    print("| cell | kind | control points | " + " | ".join(COLUMNS) + " | covered | by base alone | over 3 u |", flush=True)
    for label, u, spread, scoped, kinds in CELLS:
        for kind in kinds:
            for count in (4, 6, 8, 12):
                random = np.random.default_rng([seed, count, KINDS.index(kind), len(label)])
                total = Counter()
                for k in range(stages):
                    total.update(counted(*made(bodies[k % len(bodies)], count, kind, (u, spread, scoped, random))))
                axes = max(1, total["axes"])
                shares = (total["covered"] / axes, total["own covered"] / axes, total["over 3 u"] / axes)
                print(f"| {label} | {kind} | {count} | " + " | ".join(str(total[name]) for name in COLUMNS)
                      + " | " + " | ".join(f"{share:.1%}" for share in shares) + " |", flush=True)


if __name__ == "__main__":
    main()
