"""Music that has been played for two centuries is never refused, and rarely questioned."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from fractions import Fraction

import pytest
from music.bach import MOVEMENTS, TEMPO, parts
from music.passages import PASSAGES, Passage
from rules.checking import checked
from sampling import WHOLE, sample

from gesturesmith.diagnostics import FileReport, Severity
from gesturesmith.units import spell

MOST_CAUTIONS = 0.05  # of all notes
LONGEST = 16  # notes per gesture: players breathe
type Notes = Iterable[tuple[str | None, Fraction]]  # name and beats; no name is a rest

# Rules that may caution here, with reasons.
EXCEPTIONS = {
    (
        "trumpet",
        "outside-usual-range",
    ): "written for the long trumpets in C and D, which sound up to D6 and higher; "
    "the compass published for the modern trumpet in B-flat ends at sounding C6",
    (
        "trumpet",
        "attacks-too-fast",
    ): "repeated sixteenths and thirty-seconds at a tempo of our own (the corpus names "
    "none), double-tongued or slurred today",
    ("horn", "attacks-too-fast"): "thirty-seconds of an ornament at a tempo of our own, slurred today",
    (
        "natural-horn-eb",
        "pitch-no-tube-gives",
    ): "Beethoven, Symphony 9: the low A of the fourth horn, three semitones under partial 4, hard and famous",
    (
        "tuba",
        "breath-too-short",
    ): "Mahler, Symphony 1: sixteen slow notes in one breath, as we divide it; the player breathes where he likes",
}


def gestures(notes: Notes) -> Iterator[str]:
    """The contours and lengths of gestures, one from rest to rest, none longer than a breath."""
    row: list[tuple[str, Fraction]] = []

    def written() -> str:
        at, points = Fraction(0), []
        for name, beats in row:
            points.append(f"{name}@{at}" if at else name)
            at += beats
        return f"  contour: {', '.join(points)}\n  lasts: {at} beats\n"

    for name, beats in notes:
        if name is not None:
            row.append((name, beats))
        if row and (name is None or len(row) == LONGEST):
            yield written()
            row = []
    if row:
        yield written()


def report(instrument: str, pitches: str, tempo: int, notes: Notes) -> FileReport:
    head = f"instrument: {instrument}\npitches: {pitches}\ntempo: {tempo}\n"
    blocks = (f"\ngesture g{i}\n{body}" for i, body in enumerate(gestures(notes)))
    return checked(head + "".join(blocks)).report


def cautions(instrument: str, said: FileReport) -> Counter[tuple[str, str]]:
    """The cautions by rule; nothing may be refused."""
    findings = [f for g in said.gestures for f in g.findings]
    assert [f.text for f in findings if f.severity is Severity.REFUSED] == []
    return Counter((instrument, f.rule) for f in findings if f.severity is Severity.CAUTION)


def test_bach_for_horn_and_trumpet() -> None:
    """music21 10.5.1, corpus: some twenty movements, fed note by note."""
    found: Counter[tuple[str, str]] = Counter()
    count, heard = 0, Counter()
    some = sample(MOVEMENTS, 3)
    for movement in some:
        for part in parts(movement):
            notes = [(None if cents is None else spell(cents).name, beats) for cents, beats in part.notes]
            found += cautions(part.instrument, report(part.instrument, "sounding", TEMPO, notes))
            count += sum(name is not None for name, _ in notes)
            heard[part.instrument] += 1
    assert len(MOVEMENTS) >= 20
    least = 1 if WHOLE else len(some) / len(MOVEMENTS) / 2  # they differ in length
    assert heard["horn"] >= 15 * least
    assert heard["trumpet"] >= 25 * least
    assert count > 3500 * least
    assert set(found) <= set(EXCEPTIONS), found
    assert found.total() < MOST_CAUTIONS * count


def notes_of(passage: Passage) -> list[tuple[str | None, Fraction]]:
    items = (item.split(":") for item in passage.notes.split())
    return [(None if name == "r" else name, Fraction(beats)) for name, beats in items]


@pytest.mark.parametrize("passage", PASSAGES, ids=lambda p: f"{p.instrument}: {p.work}")
def test_a_known_passage(passage: Passage) -> None:
    """Typed from memory (tests/music/passages.py): whether it can be played, not how the part is printed."""
    notes = notes_of(passage)
    said = report(passage.instrument, passage.pitches, passage.tempo, notes)
    found = cautions(passage.instrument, said)
    assert set(found) <= set(EXCEPTIONS), found
    assert found.total() < MOST_CAUTIONS * sum(name is not None for name, _ in notes), [
        f.text for g in said.gestures for f in g.findings
    ]


def test_four_passages_for_each_of_four_instruments() -> None:
    count = Counter(p.instrument.partition("-")[0] for p in PASSAGES)
    assert min(count[name] for name in ("horn", "trumpet", "trombone", "tuba", "natural")) >= 4
