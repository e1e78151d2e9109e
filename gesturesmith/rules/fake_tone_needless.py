"""A fake tone is asked for where a harmonic gives the note.

Checks  every pitch asked for as a fake tone, against the harmonics of every tube
Why     a fake tone stands between the harmonics, rough and approximate; where a fingering or position gives the
        note it would sound better as an ordinary one
Fires
    instrument: trombone
    pitches: written
    gesture a
      technique: factitious
      contour: xF2
Passes
    instrument: trombone
    pitches: written
    gesture a
      technique: factitious
      contour: xD2
Fix     nothing, if the rough tone is meant; else write the note without `factitious`
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Severity
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.realise.ways import in_tune_cents
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.reading import played_points, tube_words

_LAW = Sourced("the harmonics of every tube", DERIVED, "the lengths of the instrument's tubes")


@rule("GS216", "fake-tone-needless", severity="advice", only=("harmonic:between",))
def check(case: Case) -> Iterator[Finding]:
    said = set()
    for point, played in played_points(case):
        fake = next((t for t in point.techniques if t.harmonic == "between"), None)
        off = abs(played.error_cents)
        if fake is None or fake.key in said or played.tube is None or off > in_tune_cents(case.instrument):
            continue
        said.add(fake.key)
        yield Finding(
            span=point.span,
            text=f"{tube_words(case.instrument, played.tube)}, partial {played.partial}, gives this note; "
            "a fake tone stands between the harmonics",
            evidence=_LAW,
            severity=Severity.ADVICE,
            proposed_fixes=fixes.without(case, fake.key),
        )
