"""Graded sheets: only playable phrases within a student's reach, never easier than those of the level before."""

from __future__ import annotations

from itertools import pairwise

import pytest
from sampling import SOAK, WHOLE, sample

from gesturesmith import instruments, techniques
from gesturesmith.diagnostics import Verdict
from gesturesmith.exercises import compass, frame, levels, shapes
from gesturesmith.exercises.graded import LEVELS_OF_SHEETS, graded
from gesturesmith.exercises.phrases import way_of
from gesturesmith.exercises.preparation import barred
from gesturesmith.instruments._build import cents, note
from gesturesmith.judge.gesture import judge
from gesturesmith.techniques.base import Technique

CASES = [("horn", "stopped"), ("trumpet", "double-tongue"), ("trombone", "slide-gliss"), ("tuba", "kiss")]


def lines_of(instrument: str, technique: str, last: int = 5):
    return graded(techniques.get(technique), instruments.get(instrument), last=last)


@pytest.fixture(scope="module", params=CASES, ids=lambda case: "-".join(case))
def found(request):
    return lines_of(*request.param)


def written(one) -> list[float]:
    return [p.pitch.written.pitch_cents for p in one.case.gesture.points if p.pitch is not None]


def test_every_line_is_playable_and_every_level_has_some(found) -> None:
    assert set(found) == set(LEVELS_OF_SHEETS)
    for lines in found.values():
        assert 2 <= len(lines) <= 8
        for one in lines:
            assert judge(one.case.gesture).verdict is Verdict.PLAYABLE


def never_easier(found) -> None:
    rows = [[one.difficulty for one in found[level]] for level in LEVELS_OF_SHEETS if level in found]
    for row in rows:
        assert row == sorted(row)
    for easier, harder in pairwise(rows):
        assert easier[-1] <= harder[0]


# Each pair takes about a second: one of many, and in `make soak` every technique on every instrument.
_PAIRS = [(one, key) for key in techniques.names() for one in instruments.names()]
_SOME = _PAIRS[:: 1 if SOAK else 61 if WHOLE else 1201]


@pytest.mark.parametrize(("instrument", "technique"), _SOME)
def test_no_line_is_easier_than_one_of_the_level_before(instrument, technique) -> None:
    never_easier(lines_of(instrument, technique))


# nemusicpub.com/grading, grade 1/2: trumpet C to B-flat, horn C to A, concert keys B-flat and E-flat (horn F,
# trumpet C and F); reykjavik.is, level 1: horn and trumpet in C, tuba C to e-flat. Signatures in flats.
_FIRST_YEAR = {
    "horn": ("C4", "A4", {0, -1}),
    "trumpet": ("C4", "Bb4", {0, -1}),
    "trombone": ("Bb2", "Bb3", {-2, -3}),
    "tuba-eb": ("C2", "Eb3", {-3, -2}),
}


@pytest.mark.parametrize("instrument", _FIRST_YEAR)
def test_the_first_year(instrument) -> None:
    """Within the published notes and a sixth, in the keys of the first book, no note shorter than a quarter."""
    low, high, keys = _FIRST_YEAR[instrument]
    for one in lines_of(instrument, "vibrato", 1)[1]:
        heights = written(one)
        assert cents(low) <= min(heights) <= max(heights) <= cents(high)
        assert max(heights) - min(heights) <= 900
        assert one.asked.key.fifths in keys
        assert 60 <= one.asked.tempo <= 80
        starts = [p.at for p in one.case.gesture.points]
        assert all(b - a >= 1 for a, b in pairwise(starts))


def test_the_first_year_uses_no_seventh_position() -> None:
    for technique in sample(("slide-gliss", "flutter-tongue", "quarter-tones"), 3):
        for level in (1, 2):
            for one in lines_of("trombone", technique, 2).get(level, ()):
                tubes = [p.tube for p in one.case.realisation.points if p.tube is not None]
                assert all("7" not in tube.valves for tube in tubes)


@pytest.mark.parametrize("technique", ["bend", "quarter-tones"])
def test_what_leaves_a_note_and_comes_back_has_quarters_in_the_first_year(technique) -> None:
    for one in lines_of("trombone", technique, 1)[1]:
        starts = [p.at for p in one.case.gesture.points]
        assert all(b - a >= 1 for a, b in pairwise(starts))


def test_a_sweep_beside_plain_notes_has_its_fingering_at_its_own_note() -> None:
    """On the horn written C5 to G4 is played on one tube; the plain C4 before it is open on the F side, as on every
    chart, and says nothing."""
    from gesturesmith.model.piece import Settings
    from gesturesmith.score import passage_score
    from gesturesmith.score.marks import Fingering

    horn = instruments.get("horn")
    for one in lines_of("horn", "harmonic-gliss", 2)[2]:
        music = passage_score(barred((one.case,), one.meter, 1), Settings(instrument=horn, pitches="written"))
        events = [event for part in music.parts for event in part.played.events]
        first = one.case.realisation.points[0]
        said = [any(isinstance(mark, Fingering) for mark in event.marks) for event in events]
        assert any(said)
        assert said[0] is not first.standard


def test_one_new_thing_at_a_time() -> None:
    """In the first year a technique comes twice in a line at most, after plain notes."""
    for one in lines_of("horn", "stopped", 1)[1]:
        turns = [n for n, p in enumerate(one.case.gesture.points) if p.turns_to]
        assert 1 <= len(turns) <= 2
        assert turns[0] > 0


def test_stopping_begins_where_it_is_learnt() -> None:
    """From G4 to C5, written."""
    for one in lines_of("horn", "stopped", 1)[1]:
        assert cents("G4") <= min(written(one)) <= max(written(one)) <= cents("C5")


def test_a_quarter_tone_begins_beside_its_plain_neighbour() -> None:
    for one in lines_of("trombone", "quarter-tones", 1)[1]:
        heights = written(one)
        turned = [n for n, p in enumerate(one.case.gesture.points) if p.turns_to]
        assert turned
        for n in turned:
            assert abs(heights[n] - heights[n - 1]) == 50


@pytest.mark.parametrize("technique", sample(["double-tongue", "triple-tongue", "single-tongue"], 3))
def test_the_tempo_of_the_tongue_rises_with_the_level(technique) -> None:
    found = lines_of("trumpet", technique)
    speeds = [[one.asked.strokes * one.asked.tempo for one in found[n]] for n in LEVELS_OF_SHEETS if n in found]
    assert len(speeds) >= 4
    for slower, faster in pairwise(speeds):
        assert max(slower) < min(faster)


def test_what_a_first_year_student_cannot_reach_has_no_first_level() -> None:
    """A lip trill needs partials a tone apart: from the eighth up, written C5 of the open trumpet, F#4 with all
    valves (common practice)."""
    found = lines_of("trumpet", "lip-trill", 1)
    assert 1 not in found


def test_lines_are_phrases_of_several_shapes(found) -> None:
    for level, lines in found.items():
        tunes = [tuple((p.pitch.written.name, p.at) for p in one.case.gesture.points if p.pitch) for one in lines]
        assert len(set(tunes)) == len(tunes)
        assert len({one.asked.shape for one in lines}) >= min(3, len(lines) - 1), level


def test_the_same_every_time_and_another_with_another_seed() -> None:
    kiss, trumpet = techniques.get("kiss"), instruments.get("trumpet")
    before = graded(kiss, trumpet, 0, 2)
    graded.cache_clear()
    assert graded(kiss, trumpet, 0, 2) == before
    assert graded(kiss, trumpet, 1, 2) != before


def test_what_is_impossible_has_no_lines() -> None:
    assert lines_of("horn", "slide-gliss") == {}


@pytest.mark.parametrize("name", sample(["horn", "trombone", "trumpet"], 3))
def test_a_sheet_of_bends_goes_down(name) -> None:
    """The sign and its text mean downwards, and the lip can take a note up only a little."""
    for lines in lines_of(name, "bend", 3).values():
        for one in lines:
            home = None
            for point in one.case.gesture.points:
                home = point.pitch.cents if point.reached == "attack" else home
                assert point.pitch.cents <= home


def test_shapes_are_short_phrases() -> None:
    for name in shapes.names():
        shape = shapes.get(name)
        assert 12 <= shape.beats <= 16
        assert shape.notes[-1][1] >= 2  # it ends on a long note


@pytest.mark.parametrize("name", instruments.names())
def test_every_instrument_has_notes_for_every_level(name) -> None:
    """Wider from level to level, within the usual range."""
    instrument = instruments.get(name)
    notes = compass.of(instrument)
    assert len(notes.keys) == len(LEVELS_OF_SHEETS)
    ends = [notes.range_of(level, instrument) for level in LEVELS_OF_SHEETS]
    for (low, high), (lower, higher) in pairwise(ends):
        assert lower <= low < high <= higher
    assert ends[0][1] - ends[0][0] <= 1200


def test_nothing_a_level_holds_is_without_a_source() -> None:
    for level in levels.numbered():
        for value in (level.tempi, level.pace, level.shares, level.widest, level.dynamics, level.tongue):
            assert len(value.source) > 8
    for name in compass.names():
        for value in (*compass.get(name).ranges, *compass.get(name).keys):
            assert len(value.source) > 8


@pytest.mark.parametrize("technique", ["double-tongue", "lip-gliss", "vibrato"])
def test_the_warm_up_lies_on_the_students_notes(technique) -> None:
    """Tonguing is warmed up by tonguing, and nothing else is above the first-year student."""
    horn = instruments.get("horn")
    for level in levels.numbered():
        passage = frame.before(techniques.get(technique), horn, level)
        low, high = compass.of(horn).range_of(level.number, horn)
        gestures = [case.gesture for case in passage.cases if case is not None]
        points = [p for gesture in gestures for p in gesture.points]
        assert all(low <= p.pitch.written.pitch_cents <= high for p in points)
        if way_of(techniques.get(technique)) == "tongue":
            assert points[0].pitch == points[1].pitch == points[2].pitch


def tiring() -> list[Technique]:
    return [t for t in map(techniques.get, techniques.names()) if t.tiring]


def test_what_tires_ends_with_a_cool_down() -> None:
    """Soft and low, at every level."""
    for technique in tiring():
        passage = frame.after(technique, instruments.get("horn"), levels.numbered()[0])
        (case,) = [c for c in passage.cases if c is not None]
        assert [mark.level for mark in case.gesture.dynamics] == ["p"]
    assert frame.after(techniques.get("vibrato"), instruments.get("horn"), levels.numbered()[0]) is None


def test_a_key_has_its_signature() -> None:
    """F major on the horn: B-flat, and concert B-flat for its key."""
    from gesturesmith.exercises.phrases import note_in
    from gesturesmith.units import KeySignature

    assert note_in(KeySignature(-1, "major"), note("B4").steps).name == "Bb4"
