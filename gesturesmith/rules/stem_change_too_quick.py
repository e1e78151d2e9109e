"""There is too little time to move the stem of a harmon mute.

Checks  the silence before each note at which the stem is elsewhere, within a gesture and between gestures of a
        passage; where a line leads there, how long the line lasts
Why     a hand has to leave the instrument, reach the mute and push or pull without a jolt; taking the stem out and
        putting it in need the most care
Fires
    instrument: trumpet
    pitches: written
    tempo: 60
    gesture a
      mute: harmon
      contour: G4 as stem-in, G4 as stem-out
Passes
    instrument: trumpet
    pitches: written
    tempo: 60
    gesture a
      mute: harmon
      contour: G4 as stem-in, r, G4@4 as stem-out
Fix     leave some rest before it, or a line long enough for the hand
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.rules.base import Case, Finding, PassageCase, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.changes import in_gesture, in_passage
from gesturesmith.rules.shared.limits import below
from gesturesmith.rules.shared.reading import apart, plain, seconds_between

_WHAT = "the stem"


def _state(point: ContourPoint, gesture: Gesture) -> str | None:
    return next((t.key for t in point.techniques if t.of_mute), None)


def _between(case: PassageCase) -> Iterator[Finding]:
    return in_passage(case, _state, "stem_change_s", _WHAT)


@rule("GS322", "stem-change-too-quick", severity="caution", passage=_between, only=("stem",))
def check(case: Case) -> Iterator[Finding]:
    yield from in_gesture(case, _state, "stem_change_s", _WHAT)
    gesture = case.gesture
    for before, point, _ in gesture.slides:
        if _state(before, gesture) == _state(point, gesture):
            continue
        seconds = seconds_between(gesture, before.at, point.at)
        excess = below(case.instrument.limits.get("stem_slide_s"), seconds)
        if excess is not None:
            yield Finding(
                span=point.span,
                text=f"{apart(seconds, excess.limit)} s to move {_WHAT} along this line; {plain(excess.limit)} s "
                "are needed",
                evidence=excess.evidence,
                severity=excess.severity,
                numbers=(Number(name="time", value=seconds, limit=excess.limit, unit="s"),),
                proposed_fixes=fixes.slower(gesture, excess.limit / seconds) if seconds else (),
            )
