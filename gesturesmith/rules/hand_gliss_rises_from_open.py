"""A hand glissando rises from a note with an open bell.

Checks  the first line of each run of a hand glissando: whether it rises without `stopped` or `half-stopped`
        at its start
Why     closing the hand lowers a note; to rise, the hand must begin closed and then open, which the player has
        to be told
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: hand-gliss
      contour: B4 -- C5
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: hand-gliss
      contour: C5 -- B4
Fix     let it fall, or begin with the hand closed: `B4 as stopped -- C5 as ordinary`
"""

from collections.abc import Iterator

from gesturesmith.diagnostics.changes import PitchChange, TechniqueTurn
from gesturesmith.evidence import PUBLISHED, Sourced
from gesturesmith.realise.in_force import bell_hand
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.reading import slides

_EVIDENCE = Sourced(
    "downward",
    PUBLISHED,
    "the pitch falls smoothly while the hand closes: JASA 155 (3 Suppl.) A109 (2024), doi 10.1121/10.0026978",
)


@rule("GS308", "hand-gliss-rises-from-open", severity="caution", only=("path:hand",))
def check(case: Case) -> Iterator[Finding]:
    for slide in slides(case, "hand"):
        closed = bell_hand(slide.start.techniques) != ""
        if slide.cents <= 0 or closed or slide.start.reached == "line":
            continue
        start, end = slide.index, slide.index + 1
        change = tuple(
            PitchChange(i, p.pitch.written, p.about)
            for i, p in ((start, slide.end), (end, slide.start))
            if p.pitch is not None
        )
        yield Finding(
            span=slide.segment.span,
            text="goes up from an open note; a closing hand lowers the pitch, so close the bell at the start",
            hint="let it fall, or write `as stopped` at its start",
            evidence=_EVIDENCE,
            proposed_fixes=(
                (TechniqueTurn(start, "stopped"), TechniqueTurn(end, "ordinary")),
                *((change,) if len(change) == 2 else ()),
                *fixes.instead(case, "motion", "lip-gliss"),
            ),
        )
