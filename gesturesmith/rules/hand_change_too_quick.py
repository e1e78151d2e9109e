"""There is too little time to close or open the bell with the hand.

Checks  the silence before each attacked note at which stopping or half-stopping begins or ends
Why     the hand has to move and seal the bell before the note; along a line or slur it moves while the tone
        sounds, which is an effect of its own and not judged here
Fires
    instrument: horn
    pitches: written
    tempo: 120
    gesture a
      contour: C5, C5 as stopped, C5 as ordinary
Passes
    instrument: horn
    pitches: written
    tempo: 120
    gesture a
      contour: C5, r, r, C5 as stopped
Fix     leave a short rest, or join the notes with a line to hear the hand move
"""

from collections.abc import Iterator

from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.realise.in_force import bell_hand
from gesturesmith.rules.base import Case, Finding, PassageCase, rule
from gesturesmith.rules.shared.changes import in_gesture, in_passage


def _state(point: ContourPoint, gesture: Gesture) -> str:
    return bell_hand(point.techniques)


def _between(case: PassageCase) -> Iterator[Finding]:
    return in_passage(case, _state, "hand_change_s", "the hand in the bell")


@rule("GS312", "hand-change-too-quick", severity="caution", passage=_between, only=("bell",))
def check(case: Case) -> Iterator[Finding]:
    return in_gesture(case, _state, "hand_change_s", "the hand in the bell")
