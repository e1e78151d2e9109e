"""Absurd gestures get a finding: no crash, no hang, no silent pass."""

from __future__ import annotations

import pytest
from rules.checking import checked
from sampling import SOAK, sample
from timing import within

from gesturesmith import instruments
from gesturesmith.diagnostics import Severity, Verdict
from gesturesmith.techniques import get, names


def found(body: str, instrument: str = "horn", tempo: str = "60"):
    lines = "\n".join(f"  {line}" for line in body.splitlines())
    text = f"instrument: {instrument}\npitches: written\ntempo: {tempo}\n\ngesture a\n{lines}\n"
    return checked(text, suggestions=True).report.gestures[0]


@pytest.mark.parametrize(
    ("body", "rule"),
    [
        ("contour: C5\nfingering: F 1-4", "no-such-fingering"),
        ("contour: C#5\nfingering: F 0", "fingering-misses-pitch"),
        ("technique: harmonic-gliss\ncontour: G4 ~~ G5\nfingering: F 0, F 1", "fingering-contradicts"),
        ("technique: bend\ncontour: G4 -- F#4 -- G4\nfingering: F 0, F 1, F 0", "fingering-contradicts"),
        ("technique: fingered-gliss\ncontour: C5 ~~ G5\nfingering: held", "fingering-contradicts"),
        ("technique: chromatic\ncontour: C5 ~~ G5\nfingering: F 0\nlasts: 4 beats", "fingering-contradicts"),
        ("technique: valve-trill\ncontour: C5\nfingering: held", "fingering-contradicts"),
        ("contour: C0", "outside-range"),
        ("contour: B9", "outside-range"),
        ("contour: B##9", "outside-range"),
        ("contour: Cbb0-99c", "outside-range"),
        ("contour: C5\nlasts: 1/1000000 beats", "pitch-too-short-to-hear"),
        ("contour: xC5\nattacks: 200\nlasts: 1/1000000 beats", "attacks-too-fast"),
        ("contour: C5\nlasts: 0.000001 s", "pitch-too-short-to-hear"),
        ("contour: C5\nlasts: 999 s", "breath-too-short"),
        ("contour: C5\nlasts: 1000 beats", "breath-too-short"),
        ("technique: growl\ncontour: xC5\nlasts: 900 s", "effect-too-long"),
    ],
)
def test_each_is_answered_by_its_rule(body: str, rule: str) -> None:
    said = found(body)
    assert rule in {f.rule for f in said.findings}
    assert said.verdict is not Verdict.PLAYABLE


@pytest.mark.parametrize("name", instruments.names())
@pytest.mark.parametrize("pitch", ["Cbb0", "C0", "B9", "B##9"])
def test_pitches_at_the_edge_of_the_notation_are_refused_everywhere(name: str, pitch: str) -> None:
    said = found(f"contour: {pitch}", instrument=name)
    assert [f.rule for f in said.findings if f.severity is Severity.REFUSED] == ["outside-range"]


# One of each kind, since kind decides which rules look at every point; `make soak` takes all.
KINDS = {(t.layer, t.path, t.pitched, t.trill): t.key for t in map(get, names())}


@pytest.mark.parametrize("technique", names() if SOAK else sample(sorted(KINDS.values()), 4))
def test_five_hundred_points_with_any_technique(technique: str) -> None:
    """Points that the technique does not take are findings too; nothing takes more than a moment."""
    line = " ~~ " if technique in ("harmonic-gliss", "fingered-gliss", "lip-gliss", "half-valve") else ", "
    contour = line.join(["G4", "A^4", "Bb4", "xF5"] * 125)
    assert within(5, lambda: found(f"technique: {technique}\ncontour: {contour}\nlasts: 1 s")).findings


def test_four_hundred_points_each_with_its_own_level() -> None:
    """The level at a time is found without going through all earlier ones."""
    points = ", ".join(f"C5 {level}" for level in ["p", "f", "mf", "pp"] * 100)
    assert within(5, lambda: found(f"contour: {points}")).findings is not None
