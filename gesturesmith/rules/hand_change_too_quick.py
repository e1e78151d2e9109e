"""There is too little time to close or open the bell or the mute.

Checks  the time from the note before to each attacked note at which the hand in the bell, or what covers the bell
        or the mute, closes or opens
Why     the hand has to move between two notes, and can do so while it plays: + and o alternate on quarters at 120
        and much faster; along a line or slur it moves while the tone sounds, which is not judged here
Fires
    instrument: horn
    pitches: written
    tempo: 120
    gesture a
      contour: C5, C5 closed, C5 open, C5 closed
      lasts: 1/2 beats
Passes
    instrument: horn
    pitches: written
    tempo: 120
    gesture a
      contour: C5 closed, C5 open, C5 closed, C5 open
Fix     play it slower, or join the notes with a line to hear the hand move
"""

from collections.abc import Iterator

from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.realise.in_force import bell_hand, cover
from gesturesmith.rules.base import Case, Finding, PassageCase, rule
from gesturesmith.rules.shared.changes import in_gesture, in_passage

_HAND, _COVER = ("hand_change_s", "the hand in the bell"), ("cover_change_s", "from open to closed or back")


def _hand(point: ContourPoint, gesture: Gesture) -> str:
    return bell_hand(point.techniques)


def _cover(point: ContourPoint, gesture: Gesture) -> str:
    return cover(point.techniques)


def _between(case: PassageCase) -> Iterator[Finding]:
    yield from in_passage(case, _hand, *_HAND, playing=True)
    yield from in_passage(case, _cover, *_COVER, playing=True)


@rule("GS312", "hand-change-too-quick", severity="caution", passage=_between, only=("bell", "cover"))
def check(case: Case) -> Iterator[Finding]:
    yield from in_gesture(case, _hand, *_HAND, playing=True)
    yield from in_gesture(case, _cover, *_COVER, playing=True)
