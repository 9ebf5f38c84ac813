"""One stage from readings to verdict, in the order of the work: base, witnesses, ties, stories, doubt, settling."""
from dataclasses import dataclass

import numpy as np
from search import search
from stories import moved_members, verdict
from verdicts import doubt, settled, tie_broken
from witnesses import joined


@dataclass(frozen=True)
class Stage:
    """control, witnesses, scope: Points read. chassis: (build, elsewhere). scope may hold all other points: none was stated."""

    control: object
    witnesses: object
    scope: object
    chassis: tuple


@dataclass(frozen=True)
class Outcome:
    found: object
    joined: object
    verdict: object
    tie: bool
    doubted: tuple
    stories: list
    settling: list
    taken: int
    provisional: bool


def story_list(stage, found, base, told):
    """(still, moved) of A, of rivals, of zones, and of every significant story; each still set once. Subsets are told only
    where no named set, lean or turn is significant."""
    named = [one for one in told if one.story.kind != "subset"]
    control = stage.control
    stills = [list(rows) for rows in found.bases]
    stills += [list(zone) for pair in found.zones for zone in pair]
    rows = {name: i for i, name in enumerate(control.ids)}
    for one in named or told:
        away = set(moved_members(base, one))
        stills.append([rows[name] for name in base.ids if name not in away])
    kept = {tuple(sorted(still)): None for still in stills}
    return [(control.take(still), control.take([i for i in range(len(control)) if i not in still])) for still in kept]


def outcome(stage):
    witnesses = stage.witnesses
    found = search(stage.control, stage.chassis[0], measured(stage), len(witnesses) == 0)
    bases = [stage.control.take(sorted(rows)) for rows in found.bases]
    joint = joined(bases[0], witnesses, *stage.chassis)
    tie = "tie" in found.reasons
    if tie and joint.groups:
        tie = not tie_broken(bases, witnesses, stage.chassis, stage.scope)[0]
    told = verdict(joint, stage.scope)
    ambiguous = tie or bool(found.zones) or told.ambiguous
    inconsistent = "inconsistent" in found.reasons
    every, members = doubt(joint)
    stories, settling, taken = [], [], None
    if ambiguous and joint.groups and not inconsistent:
        stories = story_list(stage, found, bases[0], told.significant)
        if len(stories) > 1:
            settling, taken = settled(stories, witnesses, stage.chassis, stage.scope)
    provisional = inconsistent or ((ambiguous or every or bool(members)) and taken is None)
    return Outcome(found, joint, told, tie, (every, members), stories, settling, taken, provisional)


def measured(stage):
    parts = [stage.control, stage.scope] + ([stage.witnesses] if len(stage.witnesses) else [])
    return type(parts[0])(*(sum((getattr(p, key) for p in parts), ()) for key in ("ids", "names", "sides", "parts")),
                          *(np.concatenate([getattr(p, key) for p in parts])
                            for key in ("reference", "reading", "variance", "tolerance")))
