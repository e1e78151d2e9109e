"""A passage plays a gesture that can be played with care only.

Checks  every gesture that the passage plays as it stands in the file
Why     a passage asks of the player all that its gestures ask: it cannot be easier than the worst of them
Fires
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      contour: C5
      lasts: 30 beats
    passage b
      play: a, rest 30, C5 for 2
Passes
    instrument: horn
    pitches: written
    gesture a
      contour: C5
    passage b
      play: a, rest 2, C5 for 2
Fix     make the gesture easier, or answer for it there with `allow`
"""

from collections.abc import Iterator

from gesturesmith.rules.base import Finding, PassageCase, passage_rule
from gesturesmith.rules.shared.played import played


@passage_rule("GS716", "plays-with-care", severity="caution")
def check(passage: PassageCase) -> Iterator[Finding]:
    yield from played(passage.passage, passage.cautions, "which is playable with care", once=True)
