"""Probes of a technique: shapes of every kind it takes, transposed through the range and judged on every note."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import music21
import pytest
from sampling import sample

from gesturesmith import instruments, techniques
from gesturesmith.diagnostics import Verdict
from gesturesmith.exercises.probes import lacking, level_for, probe_gestures, reach, written_range
from gesturesmith.judge.gesture import judge
from gesturesmith.model import move
from gesturesmith.model.levels import level_at
from gesturesmith.units import Spelling

HORN, TROMBONE = instruments.get("horn"), instruments.get("trombone")
G4 = Spelling("G", Fraction(0), 4)


@pytest.mark.parametrize("key", techniques.names())
def test_every_shape_is_one_the_technique_takes(key: str) -> None:
    """Number of points, kind of lines: nothing is refused because of its form."""
    technique = techniques.get(key)
    form = {
        "wrong-number-of-points",
        "line-not-taken",
        "line-missing",
        "line-without-technique",
        "sung-line-unused",
    }
    for shape in probe_gestures(technique, TROMBONE if technique.needs == "slide" else HORN):
        found = {f.rule for f in judge(shape.gesture).findings}
        assert not form & found, (shape.gesture.points, found)


@pytest.mark.parametrize("key", techniques.names())
def test_a_technique_is_tried_at_a_level_at_which_it_works(key: str) -> None:
    technique = techniques.get(key)
    shape = probe_gestures(technique, TROMBONE if technique.needs == "slide" else HORN)[0]
    assert level_at(shape.gesture, Fraction(0)) == level_for(technique)
    assert not {"effect-too-loud", "effect-too-soft"} & {f.rule for f in judge(shape.gesture).findings}


def test_a_shape_is_moved_as_a_whole() -> None:
    shape = next(s for s in probe_gestures(techniques.get("lip-gliss"), HORN) if s.interval == 4)
    moved = shape.at(G4)
    assert moved is not None
    assert [p.pitch.written.name for p in moved.points] == ["G4", "B4"]
    assert shape.at(Spelling("B", Fraction(0), 9)) is None


def test_the_written_range_is_the_instruments() -> None:
    """abjad 3.31, FrenchHorn: sounding B1 to F5, written F#2 to C6."""
    names = [note.name for note in written_range(HORN)]
    assert (names[0], names[-1], len(names)) == ("F#2", "C6", 43)


def test_what_an_instrument_lacks_is_told() -> None:
    assert lacking(techniques.get("slide-gliss"), HORN) == (
        "slide-gliss needs a slide; the double horn in F/B-flat has none"
    )
    assert lacking(techniques.get("half-valve"), HORN) == ""
    assert "has a slide" in lacking(techniques.get("half-valve"), TROMBONE)
    assert "has none" in lacking(techniques.get("half-valve"), instruments.get("natural-horn"))


def test_reach_is_what_the_checker_says_note_by_note() -> None:
    """Flutter-tonguing on the horn: with care at both ends, playable between; every reason is the checker's."""
    found = reach(techniques.get("flutter-tongue"), HORN)
    assert [r.note for r in found] == list(written_range(HORN, widest=True))
    verdicts = [r.verdict for r in found]
    inside = [n for n, v in enumerate(verdicts) if v is Verdict.PLAYABLE]
    assert inside == list(range(inside[0], inside[-1] + 1))
    assert 0 < inside[0] < inside[-1] < len(found) - 1
    for one in found:
        assert (one.verdict is Verdict.PLAYABLE) == (one.reason == "")


def test_reach_of_what_is_not_to_be_had() -> None:
    assert {r.verdict for r in reach(techniques.get("stopped"), TROMBONE)} == {Verdict.NOT_AS_WRITTEN}


def test_a_harmonic_glissando_needs_partials_on_the_way() -> None:
    """Below partial 3 of the longest tube there are never three partials within an octave: nothing at the
    bottom."""
    found = reach(techniques.get("harmonic-gliss"), HORN)
    assert found[0].verdict is Verdict.NOT_AS_WRITTEN
    assert found[len(found) * 3 // 4].verdict is Verdict.PLAYABLE


def test_quarter_tones_are_tried_on_quarter_tones() -> None:
    for shape in probe_gestures(techniques.get("quarter-tones"), HORN):
        moved = shape.at(G4)
        assert moved is not None
        assert [p.sounding_cents % 100 for p in moved.points] == [50] * len(moved.points)
        assert moved.points[0].pitch.written.name == "G^4"


def test_a_bend_is_brought_back_to_its_note() -> None:
    for shape in probe_gestures(techniques.get("bend"), HORN):
        names = [p.pitch.written.name for p in shape.gesture.points]
        assert len(names) in (1, 3)
        assert names[0] == names[-1]


SPELLED = ("horn", "trumpet", "trombone", "tuba", "natural-horn")


@pytest.mark.parametrize("name", sample(SPELLED, 5))
def test_every_shape_is_spelled_by_its_interval(name: str) -> None:
    """On every natural: perfect, major and minor intervals, never an augmented second for a minor third, and sharps
    or flats in a line of neighbours, not both. music21 names the intervals."""
    instrument = instruments.get(name)
    steps: set[tuple[str, str]] = set()
    starts = [s for s in written_range(instrument) if s.alter == 0]
    for technique in (techniques.get(n) for n in techniques.names()):
        if technique.grid % 100:
            continue  # quarter tones have other names
        for shape in probe_gestures(technique, instrument):
            signs = set()
            for start in starts:
                gesture = shape.at(start)
                if gesture is None:
                    continue
                row = move.written(gesture)
                steps |= {(a.name, b.name) for a, b in pairwise(row)}
                signs |= {n.alter for n in row if n.alter}
            assert len(signs) <= 1, (technique.key, shape.interval, signs)
    assert len(steps) > 50
    for a, b in sorted(steps):
        low, high = sorted((music21.pitch.Pitch(n.replace("b", "-")) for n in (a, b)), key=lambda p: p.ps)
        assert music21.interval.Interval(low, high).simpleName[0] in "PMm", (a, b)


@pytest.mark.parametrize("name", ["horn", "trumpet", "trombone", "tuba"])
def test_quarter_tones_have_the_names_of_the_chart(name: str) -> None:
    """A minor third is two letters wide, D half-sharp to B half-sharp, not to C half-flat; a sign of three quarters
    is never needed: the note has a name with one, under which the chart shows it."""
    instrument = instruments.get(name)
    starts = [start for start in written_range(instrument) if not start.alter]
    thirds = 0
    for shape in probe_gestures(techniques.get("quarter-tones"), instrument):
        for start in starts:
            moved = shape.at(start)
            assert moved is not None
            names = move.written(moved)
            assert {abs(one.alter) for one in names} == {Fraction(1, 2)}
            if shape.interval == -3 and start.letter in "CDFG":
                assert names[0].steps - names[1].steps == 2, names
                thirds += 1
    assert thirds
