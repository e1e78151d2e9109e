"""Fixes that rules propose, as pairs of strings: what is changed, and to what."""

from __future__ import annotations

from gesturesmith.diagnostics import changes
from gesturesmith.diagnostics.changes import Change, Fix
from gesturesmith.fixes.edits import written

_KEYS = {
    changes.PitchChange: "point",
    changes.SungPitchChange: "sung",
    changes.LevelChange: "level",
    changes.BreathAdded: "after",
    changes.TechniqueTurn: "after",
    changes.LineChange: "line",
    changes.Transposition: "move",
    changes.TechniquesChange: "technique",
    changes.LengthChange: "lasts",
    changes.DynamicsChange: "dynamics",
    changes.AttacksChange: "attacks",
    changes.FingeringChange: "fingering",
    changes.BandChange: "band",
}


def pair(change: Change) -> tuple[str, str]:
    """("point 2", "xG4"); of a transposition its semitones."""
    key = _KEYS[type(change)]
    if isinstance(change, changes.Transposition):
        return key, str(change.semitones)
    return (key if getattr(change, "index", None) is None else f"{key} {change.index}"), written(change)


def pairs(fixes: tuple[Fix, ...]) -> tuple[tuple[tuple[str, str], ...], ...]:
    return tuple(tuple(pair(change) for change in fix) for fix in fixes)
