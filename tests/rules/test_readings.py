"""If sources disagree: a caution beyond the narrowest reading, a refusal only beyond the widest; both are named."""

from __future__ import annotations

import pytest
from rules.checking import figures, findings, horn

from gesturesmith.diagnostics import Severity


def one(body: str, rule: str, tempo: int = 60):
    found = [f for f in findings(horn(body, tempo=tempo)) if f.rule == rule]
    assert len(found) == 1
    return found[0]


# The bottom of the horn: written F#2 (abjad 3.31) or C2 (music21 10.5.1). The top: C6 (abjad) or D6 (a player).
@pytest.mark.parametrize(
    ("pitch", "usual", "widest"),
    [("D2", "F#2", "C2"), ("C2", "F#2", "C2"), ("B1", "F#2", "C2"), ("C#6", "C6", "D6"), ("E6", "C6", "D6")],
)
def test_between_two_readings_of_the_range(pitch: str, usual: str, widest: str) -> None:
    finding = one(f"contour: {pitch}", "outside-usual-range")
    assert finding.severity is Severity.CAUTION
    assert {usual, widest} <= {*finding.text.split()}


@pytest.mark.parametrize(("pitch", "widest"), [("A1", "C2"), ("F6", "D6")])
def test_beyond_the_widest_reading_of_the_range(pitch: str, widest: str) -> None:
    """Only more than a whole tone beyond it: players' advice is not a measurement."""
    finding = one(f"contour: {pitch}", "outside-range")
    assert finding.severity is Severity.REFUSED
    assert widest in finding.text.split()


# Single tonguing: 7.3 a second (thecontemporaryhorn.com) to 9 and 10 (contemporarytuba.com); double and triple
# 12 and more (there), and never twice as fast as single. Over four seconds a burst helps by 3 % (ours).
@pytest.mark.parametrize(
    ("technique", "rate", "severity", "limit"),
    [
        ("single-tongue", 8, "caution", 7.6),
        ("single-tongue", 12, "caution", 7.6),
        ("single-tongue", 13, "refused", 10.3),
        ("double-tongue", 14, "caution", 12.4),
        ("double-tongue", 30, "refused", 20.7),
        ("triple-tongue", 30, "refused", 20.7),
        ("ordinary", 14, "caution", 12.4),
        ("ordinary", 30, "refused", 20.7),
    ],
)
def test_readings_of_tonguing(technique: str, rate: int, severity: str, limit: float) -> None:
    """A practice reading refuses only a quarter beyond it; where no tonguing is named, the fastest counts."""
    text = f"technique: {technique}\ncontour: C5\nlasts: 4 beats\nattacks: {4 * rate}"
    finding = one(text, "attacks-too-fast")
    assert finding.severity is Severity(severity)
    assert finding.numbers[0].limit == limit


# Bends: our curve, and the distance to the next partial, here from 9 to 8, beyond which the lip has left the note.
@pytest.mark.parametrize(("low", "severity"), [("F5", "caution"), ("C5", "refused")])
def test_readings_of_a_bend(low: str, severity: str) -> None:
    finding = one(f"technique: bend\ncontour: G5 -- {low}@1 -- G5\nlasts: 3 beats", "bend-too-wide")
    assert finding.severity is Severity(severity)
    assert figures(finding.text)[1:] == ([68, 204] if severity == "caution" else [204])


# Periods until a pitch is heard: 6 (Doughty and Garner, from memory) or 3 (Chalmers publ. 141752).
@pytest.mark.parametrize(("beats", "severity"), [("1/64", "caution"), ("1/128", "refused")])
def test_readings_of_response(beats: str, severity: str) -> None:
    finding = one(f"contour: C5\nlasts: {beats} beats", "pitch-too-short-to-hear")
    assert finding.severity is Severity(severity)
    assert figures(finding.text)[1:] == ([6, 3] if severity == "caution" else [3])


def test_readings_of_a_breath() -> None:
    """Three litres (from memory) or seven (A. Jacobs)."""
    finding = one("contour: C4\nlasts: 20 beats\ndynamics: mf", "breath-too-short")
    assert finding.severity is Severity.CAUTION
    assert figures(finding.text) == [20, 4, 3, 7]
