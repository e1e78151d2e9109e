"""The text above the staff is too long.

Checks  the length of `text`, and of the text at each point
Why     text wider than its gesture pushes the music apart or collides with the next text
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: C5
      text: "as if from a great distance, over the water, hardly audible at first and then gone"
Passes
    instrument: horn
    pitches: written
    gesture a
      contour: C5
      text: "from afar"
Fix     shorten it, and put the rest into `note`, which is printed below the music
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared.limits import above


@rule("GS711", "text-too-long", severity="advice", only=("text",))
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    texts = [(gesture.text or "", gesture.span_of("text")), *((p.words, p.span) for p in gesture.points)]
    for text, span in texts:
        excess = above(case.instrument.limits.get("text_longest"), len(text)) if text else None
        if excess is not None:
            yield Finding(
                span=span,
                text=f"{len(text)} letters above the staff; about {excess.limit} fit",
                hint="put the rest in `note`, which is printed below the music",
                evidence=excess.evidence,
                numbers=(Number(name="letters", value=len(text), limit=excess.limit, unit="letters"),),
            )
