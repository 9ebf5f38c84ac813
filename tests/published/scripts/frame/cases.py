"""Makes ../../frame-cases.json and ../../frame-advice.json. Run in this folder: /usr/bin/python3 cases.py

Needs Debian's python3-numpy and python3-scipy. Lengths in mm, angles in rad, vehicle axes (x forward, y left, z up); covariances of
(shift x y z at `centre`, small rotation about x y z). README.md here says in full what the files hold and how it is computed.

frame-cases.json:  bodies {name: {build, elsewhere, points}}, stages, ties, settling
frame-advice.json: bodies, cases
"""
import json
import sys

import numpy as np
import scipy
from advice import Plan, advised, exhaustive
from bodies import BODIES, BUILD, ELSEWHERE, SCOPE, body_rows, damage, read, sound_metal
from points import points_of
from stage import Stage, outcome
from stories import MOVES_FRAME, limits, moved_members, verdict
from verdicts import doubt, tie_broken
from witnesses import joined

CHASSIS = (BUILD, ELSEWHERE)
DAMAGES = ("none", "one", "pair", "end pair", "left half", "random half", "front half", "front zone", "ramp", "twist",
           "rear rails", "side impact")
TIED = ("pair", "random half", "front half")


def short(value, digits=8):
    """Plain numbers of so many significant digits; what is not finite becomes null."""
    if isinstance(value, dict):
        return {key: short(entry, digits) for key, entry in value.items()}
    if isinstance(value, (list, tuple)):
        return [short(entry, digits) for entry in value]
    if isinstance(value, np.ndarray):
        return short(value.tolist(), digits)
    if isinstance(value, (bool, np.bool_)):
        return bool(value)
    if isinstance(value, (float, np.floating)):
        return float(f"{value:.{digits}g}") if np.isfinite(value) else None
    return int(value) if isinstance(value, np.integer) else value


def tolerance_of(row):
    """Tighter on a rail's tip, half of a lopsided band on a strut's width, else 3 mm."""
    return [2, 2, 2] if "tip" in row["id"] else [3, 3.5, 3] if row["id"].startswith("strut") else [3, 3, 3]


def body_of(name):
    rows = body_rows(name, 12)
    for row in rows:
        row.update(tolerance=tolerance_of(row), uncertainty=0.2 if name == "flat" and row["part"] == "pillar" else 0)
    return dict(build=BUILD, elsewhere=ELSEWHERE, points=rows)


def read_stage(body, count, kind, settings):
    """(rows that were read, u)."""
    u, build, random = settings
    rows = body_rows(body, count)
    off = damage(rows, kind, random)
    reading, _ = read(rows, sound_metal(rows, random, (build, ELSEWHERE)) + off, u, random)
    known = {row["id"]: row for row in body_of(body)["points"]}
    for row, place, moved in zip(rows, np.round(reading, 4), off):
        u_reference = known[row["id"]]["uncertainty"]
        row.update(known[row["id"]], reading=place.tolist(), variance=u * u + u_reference**2, moved=bool(moved.any()))
    return rows


def chosen(rows, test):
    return points_of([row for row in rows if test(row)])


def divided(rows, scoped):
    """control, witnesses, scope."""
    return (chosen(rows, lambda row: row["control"]),
            chosen(rows, lambda row: scoped and not row["control"] and row["part"] not in SCOPE),
            chosen(rows, lambda row: not row["control"] and (not scoped or row["part"] in SCOPE)))


def alignment(fit):
    return dict(rotation=fit.rotation, translation=fit.translation, centre=short(fit.centre, 10), covariance=short(fit.covariance, 10))


def group(one):
    return dict(name=one.name, points=one.points.ids, inner=one.inner, outer=one.outer, off=one.off, quadratic=one.quadratic)


def told(one, with_frame=True):
    if one is None:
        return None
    entry = dict(gain=one.gain, left=one.left, moves=one.moves, fromTold=one.from_told, significant=one.significant)
    return dict(entry, frame=one.frame) if with_frame else entry


def named(entry):
    weighted, full, without = entry
    story = (weighted or full).story
    row = dict(kind=story.kind, label=story.label, members=sorted(story.members), degrees=(weighted or full).degrees,
               weighted=told(weighted))
    if full is not None:
        row["full"] = told(full, False)
        if full.significant:
            row["without"] = [dict(gain=one.gain, significant=one.significant) if one else None for one in without]
    return row


def freedom_of(result):
    """8 + 3n - trace of leverage: what the degrees of a story are taken from, by each of the two weights."""
    pairs = [(weighted, full) for weighted, full, _ in result.named]
    return dict(weighted=next((one.freedom + one.degrees for one, _ in pairs if one), None),
                full=next((one.freedom + one.degrees for _, one in pairs if one), None))


def stories(base, result):
    return dict(count=result.count, freedom=freedom_of(result),
                chiLimits={str(q): limits(result.count, q, 10)[0] for q in (1, 2, 3, 6)},
                named=[named(entry) for entry in result.named],
                subsets=dict(count=2 ** len(base), asked=result.asked,
                             best=[dict(told(one), members=sorted(one.story.members), limit=one.f_limit) for one in result.subsets[:6]],
                             significant=sum(one.significant for one in result.subsets)),
                ambiguous=result.ambiguous,
                alternatives=[dict(kind=one.story.kind, label=one.story.label, moved=moved_members(base, one)) for one in result.significant[:4]])


def results(base, witnesses, scope):
    joint = joined(base, witnesses, *CHASSIS)
    every, members = doubt(joint)
    return dict(base=dict(alignment(joint.own), birge=joint.factor), first=short([group(one) for one in joint.first]),
                groups=short([group(one) for one in joint.groups]),
                scatter=dict(own=joint.scatter.own, shared=joint.scatter.shared, raised=joint.scatter.raised),
                joined=alignment(joint.fit), stories=short(stories(base, verdict(joint, scope))),
                doubt=dict(everyGroup=every, members=members))


def inputs(rows, scoped, **more):
    return dict(more, scopeStated=scoped, readings={row["id"]: row["reading"] for row in rows},
                witnesses=divided(rows, scoped)[1].ids, scope=divided(rows, scoped)[2].ids)


def story_cases():
    cases = []
    for k, kind in enumerate(DAMAGES):
        for j, count in enumerate((4, 6, 8, 12)):
            body, u = list(BODIES)[(k + j + k // 4) % 4], (0.5, 0.3)[(k + j) % 2]
            scoped, build = (3 * k + j) % 7 != 0, 0.8 if (k + j) % 9 == 4 else 0.5
            rows = read_stage(body, count, kind, (u, build, np.random.default_rng([20260301, k, count])))
            control, witnesses, scope = divided(rows, scoped)
            still = {row["id"] for row in rows if row["control"] and not (kind == "one" and row["moved"])}
            base = control.chosen(still)
            cases.append(dict(inputs(rows, scoped, name=f"{kind}, {body}, {count}", body=body, uncertainty=u, base=base.ids),
                              results=results(base, witnesses, scope)))
    return cases


def sought(kinds, test, most, seed):
    """Stages of which the outcome passes the test: (kind, body, count, rows, Stage, Outcome)."""
    random, found = np.random.default_rng(seed), []
    for k in range(400):
        kind, body, count = kinds[k % len(kinds)], list(BODIES)[int(random.integers(4))], (4, 6, 8)[int(random.integers(3))]
        rows = read_stage(body, count, kind, (0.5, 0.5, random))
        stage = Stage(*divided(rows, True), CHASSIS)
        result = outcome(stage)
        if test(result, found):
            found.append((kind, body, count, rows, stage, result))
        if len(found) == most:
            break
    return found


def tie_cases():
    def test(result, found):
        already = sum(other[5].tie == result.tie for other in found)
        return "tie" in result.found.reasons and result.joined.groups and len(result.found.bases) < 5 and already < 3

    cases = []
    for kind, body, count, rows, stage, result in sought(("one",) + TIED, test, 6, 20260302):
        bases = [stage.control.take(sorted(one)) for one in result.found.bases]
        alike, fits = tie_broken(bases, stage.witnesses, CHASSIS, stage.scope)
        there = [fit.deviations(stage.scope) for fit in fits]
        cases.append(dict(inputs(rows, True, name=f"{kind}, {body}, {count}", body=body, uncertainty=0.5, bases=[base.ids for base in bases]),
                          results=dict(alike=alike, fits=[alignment(fit) for fit in fits],
                                       worst=[short(np.max(np.abs(one - there[0]) / stage.scope.tolerance)) for one in there])))
    return cases


def doubt_cases():
    """Bases of four that every group contradicts, as received."""
    def test(result, found):
        return result.doubted[0] and len(found) < 3

    cases = []
    for kind, body, count, rows, stage, result in sought(("front zone", "pair", "rear zone"), test, 3, 20260304):
        base = result.joined.base
        cases.append(dict(inputs(rows, True, name=f"every group off: {kind}, {body}, {count}", body=body, uncertainty=0.5, base=base.ids),
                          results=results(base, stage.witnesses, stage.scope)))
    return cases


def given_way_cases():
    """Ambiguous by where the joined fit places the scope alone, which gave way to the base that moved."""
    random, cases = np.random.default_rng(20260305), []
    kind, count = "pair", 4
    for k in range(600):
        body = list(BODIES)[k % 4]
        rows = read_stage(body, count, kind, (0.5, 0.5, random))
        control, witnesses, scope = divided(rows, True)
        result = verdict(joined(control, witnesses, *CHASSIS), scope)
        if result.ambiguous and all(one.moves <= MOVES_FRAME for one in result.significant):
            cases.append(dict(inputs(rows, True, name=f"given way {len(cases) + 1}: {kind}, {body}, {count}", body=body, uncertainty=0.5, base=control.ids),
                              results=results(control, witnesses, scope)))
        if len(cases) == 3:
            break
    return cases


def settling_cases():
    def test(result, found):
        already = sum((other[5].taken is None) == (result.taken is None) for other in found)
        return 1 < len(result.stories) <= 6 and already < 6

    cases = []
    for kind, body, count, rows, stage, result in sought(("front zone", "ramp", "rear zone", "pair"), test, 12, 20260303):
        told_stories = [dict(still=still.ids, moved=moved.ids) for still, moved in result.stories]
        answers = [None if one is None else dict(side=one.side, oneSided=one.one_sided, scopeBeyond=one.scope_beyond,
                                                 groupsBeyond=one.groups_beyond, rivalsRefuted=one.rivals_refuted,
                                                 groups=short(one.groups), qualifies=one.qualifies) for one in result.settling]
        cases.append(dict(inputs(rows, True, name=f"{kind}, {body}, {count}", body=body, uncertainty=0.5, stories=told_stories),
                          results=dict(stories=answers, taken=result.taken)))
    return cases


def advice_cases():
    cases = []
    for k, body in enumerate(BODIES):
        for j, (count, u, already) in enumerate(((12, 0.5, 0), (12, 0.3, 2), (12, 0.5, 3), (8, 1.0, 2), (6, 0.5, 2))):
            known = body_of(body)["points"]
            control = [row["id"] for row in body_rows(body, count) if row["control"]]
            front = max(row["reference"][0] for row in known if row["control"])
            rows = [dict(row, reading=None, variance=u * u + row["uncertainty"] ** 2) for row in known
                    if row["id"] in control or not row["control"] and row["part"] not in SCOPE and row["reference"][0] <= front + 200]
            plan = Plan(points_of(rows), [row["control"] for row in rows],
                        points_of([dict(row, reading=None, variance=1) for row in known if row["part"] in SCOPE]), CHASSIS)
            names = dict.fromkeys(plan.points.names)
            items = [tuple(i for i, name in zip(plan.points.ids, plan.points.names) if name == one) for one in names]
            read_ids = [i for item in items[:already] for i in item]
            answer = advised(plan, read_ids, items[already:])
            answer["exhaustive"] = exhaustive(plan, read_ids, items[already:])
            cases.append(dict(name=f"{body}, {count}, u {u}, {already} pairs read", body=body, uncertainty=u, read=read_ids,
                              items=items[already:], scope=plan.scope.ids, results=answer))
    return cases


def written(name, content):
    about = dict(madeBy="scripts/frame/cases.py", scipy=scipy.__version__, numpy=np.__version__, python=sys.version.split()[0],
                 bodies={body: body_of(body) for body in BODIES})
    with open(f"../../{name}", "w") as file:
        json.dump(short(dict(about, **content), 12), file, separators=(",", ":"))
        file.write("\n")


if __name__ == "__main__":
    written("frame-cases.json", dict(stages=story_cases() + doubt_cases() + given_way_cases(), ties=tie_cases(), settling=settling_cases()))
    written("frame-advice.json", dict(cases=advice_cases()))
