"""A chromatic run has more notes a second than can be fingered.

Checks  the semitones of each line of a chromatic run against its time
Why     each note is a fingering or a slide position of its own; beyond the limit the run becomes a smear
Fires
    instrument: horn
    pitches: written
    tempo: 120
    gesture a
      technique: chromatic
      contour: C4 -- C5
      lasts: 1 beat
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      technique: chromatic
      contour: C4 -- C5
      lasts: 2 beats
Fix     give it more time, narrow it, or ask for a `fingered-gliss` or `half-valve` slide, where a smear is meant
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules import _tries
from gesturesmith.rules._limits import above
from gesturesmith.rules._reading import plain, register_name, seconds_between, slides
from gesturesmith.rules.base import Case, Finding, rule


@rule("GS403", "run-too-fast", severity="caution")
def check(case: Case) -> Iterator[Finding]:
    for slide in slides(case, "steps"):
        seconds = seconds_between(case.gesture, slide.start.at, slide.end.at)
        notes = abs(slide.cents) / 100
        if seconds <= 0 or notes == 0:
            continue
        low = min((slide.start, slide.end), key=lambda p: p.sounding_cents or 0)
        limit = case.instrument.limits.get(f"chromatic_per_s_{register_name(case, low)}")
        excess = above(limit, notes / seconds)
        if excess is None:
            continue
        yield Finding(
            span=slide.segment.span,
            text=f"{plain(notes)} semitones in {plain(seconds)} s: {plain(notes / seconds)} notes a second; about "
            f"{plain(excess.limit)} can be fingered",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(
                Number(name="notes a second", value=notes / seconds, limit=excess.limit, unit="notes a second"),
            ),
            try_values=(
                *_tries.slower(case.gesture, notes / seconds / excess.limit),
                *_tries.instead(case, "motion", "fingered-gliss", "harmonic-gliss"),
            ),
        )
