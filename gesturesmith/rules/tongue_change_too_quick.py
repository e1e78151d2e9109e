"""One kind of tonguing follows another with no time in between.

Checks  the silence before each attacked note at which the kind of tonguing changes
Why     single, double and triple tonguing are different movements; between them the tongue has to be reset
Fires
    instrument: horn
    pitches: written
    tempo: 120
    gesture a
      technique: double-tongue
      contour: C5, C5, C5 as triple-tongue, C5, C5
      lasts: 1 beat
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      technique: double-tongue
      contour: C5, C5, C5, C5
Fix     leave a short rest, or keep one kind of tonguing
"""

from collections.abc import Iterator

from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.rules.base import Case, Finding, PassageCase, rule
from gesturesmith.rules.shared.changes import in_gesture, in_passage
from gesturesmith.rules.shared.reading import slot_s

_LAST_S = 0.25  # a note this long leaves enough time: only fast tonguing is a continuous movement


def _state(point: ContourPoint, gesture: Gesture) -> str | None:
    """The kind of fast tonguing asked for; slow notes, and what is left to the player, are compatible with all."""
    if slot_s(gesture, point) > _LAST_S:
        return None
    return next((t.rate for t in point.techniques if t.layer == "attack" and t.rate), None)


def _between(case: PassageCase) -> Iterator[Finding]:
    return in_passage(case, _state, "tongue_change_s", "the tonguing")


@rule("GS316", "tongue-change-too-quick", severity="caution", passage=_between, only=("rate",))
def check(case: Case) -> Iterator[Finding]:
    return in_gesture(case, _state, "tongue_change_s", "the tonguing")
