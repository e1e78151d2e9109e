"""Two techniques cannot be played at the same time.

Checks  every pair of techniques of the gesture, and every pair in force at a point after its `as`; a hand
        glissando may begin or end `as stopped` or `as half-stopped`
Why     a lip, a tongue, a hand or a set of valves does one thing at a time; a technique without tone leaves nothing
        for another to work on
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: bend + lip-gliss
      contour: C5 -- B4
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss + flutter-tongue
      contour: G4 ~~ G5
Fix     choose one of them, or put one after the other with `as`
"""

from collections.abc import Iterator

from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.model.gesture import Gesture
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.joined import pairs
from gesturesmith.techniques.base import Technique, clash

_EVIDENCE = Sourced("what can be joined", DERIVED, "what each technique takes up: lip, tongue, hand, valves, tone")


@rule("GS301", "techniques-contradict", severity="refused")
def check(case: Case) -> Iterator[Finding]:
    for one, other, span, named in pairs(case):
        reason = "" if not named and _on_the_way(one, other) else clash(one, other)
        if not reason:
            continue
        if named:
            text = f"{one.key} + {other.key}: {reason}{_named(case.gesture, one, other)}"
            proposed = (*fixes.without(case, other.key), *fixes.without(case, one.key))
        else:
            text = f"{one.key} and {other.key} from here on: {reason}"
            proposed = fixes.without(case, one.key)
        yield Finding(span=span, text=text, evidence=_EVIDENCE, proposed_fixes=proposed)


def _named(gesture: Gesture, one: Technique, other: Technique) -> str:
    """The technique that puts the mute in, if the composer may only have meant to name it."""
    muted = "mute" in gesture.spans and (one.takes_mute or other.takes_mute)
    return f"; `mute: {gesture.mute}` puts the mute in" if muted else ""


def _on_the_way(one: Technique, other: Technique) -> bool:
    """Whether one is a hand movement and the other its beginning or end: closed or half closed."""
    return (one.path == "hand" and bool(other.bell_hand)) or (other.path == "hand" and bool(one.bell_hand))
