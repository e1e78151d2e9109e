"""A passage plays a gesture that can only be played with care.

Checks  every gesture that the passage plays as written
Why     a passage asks everything of the player that its gestures ask: it cannot be easier than the hardest
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
Fix     make the gesture easier, or `allow` the caution there, with the reason
"""

from collections.abc import Iterator

from gesturesmith.rules.base import Finding, PassageCase, passage_rule
from gesturesmith.rules.shared.played import played


@passage_rule("GS716", "plays-with-care", severity="caution")
def check(passage: PassageCase) -> Iterator[Finding]:
    yield from played(passage.passage, passage.cautions, "which is playable with care", once=True)
