"""A passage plays a gesture that cannot be played as written.

Checks  every gesture of the passage
Why     a passage with a hole in it is useless: it is not engraved until all of it can be played
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: C7
    passage b
      play: a, rest 2, C5 for 2
Passes
    instrument: horn
    pitches: written
    gesture a
      contour: C5
    passage b
      play: a, rest 2, C5 for 2
Fix     fix the gesture, or play another one
"""

from collections.abc import Iterator

from gesturesmith.rules.base import Finding, PassageCase, passage_rule
from gesturesmith.rules.shared.played import played


@passage_rule("GS707", "plays-refused", severity="refused")
def check(passage: PassageCase) -> Iterator[Finding]:
    yield from played(passage.passage, passage.refusals, "which is not as written")
