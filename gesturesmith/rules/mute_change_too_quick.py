"""There is too little rest to put the mute in or take it out.

Checks  the silence before each note at which the mute changes, within a gesture and between gestures of a passage
Why     the player needs a free hand to pick up the mute and set it, all without noise
Fires
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      contour: C5 as muted, r, D5 as ordinary
      lasts: 4 beats
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      technique: muted
      contour: C5, D5
Fix     leave a few seconds of rest, or keep the mute for the whole passage
"""

from collections.abc import Iterator

from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.realise.in_force import is_muted
from gesturesmith.rules.base import Case, Finding, PassageCase, rule
from gesturesmith.rules.shared.changes import in_gesture, in_passage


def _state(point: ContourPoint, gesture: Gesture) -> str:
    return (gesture.mute or "straight") if is_muted(point.techniques) else ""


_OF_MUTE = {"cup": "mute_change_cup_s", "bucket": "mute_change_bucket_s"}


def _limit(before: str, now: str) -> str:
    """The limit of the mute that takes longest: a plunger is in the hand, a cup has to be set."""
    if {before, now} == {"", "plunger"}:
        return "mute_change_plunger_s"
    return next((name for mute, name in _OF_MUTE.items() if mute in (before, now)), "mute_change_s")


def _between(case: PassageCase) -> Iterator[Finding]:
    return in_passage(case, _state, _limit, "the mute")


@rule("GS311", "mute-change-too-quick", severity="caution", passage=_between, only=("mute",))
def check(case: Case) -> Iterator[Finding]:
    return in_gesture(case, _state, _limit, "the mute")
