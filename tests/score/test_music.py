"""Scores as plain values: every time, note value and pitch of demo and gallery, without LilyPond."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from sampling import sample

from gesturesmith.backends import lilypond
from gesturesmith.checker import check_text
from gesturesmith.checker.file import Checked
from gesturesmith.model.piece import Settings
from gesturesmith.pipeline.gesture_cache import _FORM
from gesturesmith.rules.base import PassageCase
from gesturesmith.score import gesture_score, passage_score
from gesturesmith.score.heads import on_page
from gesturesmith.score.marks import FootnoteMark
from gesturesmith.score.music import Music, Voice
from gesturesmith.score.rhythm import Leaf, Tuplet
from gesturesmith.source import Source

DOCS = Path(__file__).parents[2] / "docs"
FILES = [*sorted((DOCS / "demo").glob("*.gesture")), *sorted((DOCS / "gallery").glob("*.gesture"))]


def checked(path: Path) -> tuple[Checked, ...]:
    """The file, or each of its parts."""
    found = check_text(Source(path.name, path.read_text("utf-8")), folder=path.parent, suggestions=False)
    assert not found.report.errors
    return found.parts or (found,)


def settings(found: Checked) -> Settings:
    assert found.reading.piece is not None
    return found.reading.piece.settings


def passage_cases(found: Checked) -> list[PassageCase]:
    """Also as each player of a part for two has them."""
    return [case for lines in (found.passage_cases, *found.players) for case in lines.values()]


def leaves(voice: Voice) -> list[tuple[Leaf, Fraction]]:
    """The leaves of a voice, each with its length in beats."""
    return [
        (leaf, leaf.value * (item.factor if isinstance(item, Tuplet) else 1))
        for item in voice.leaves
        for leaf in (item.leaves if isinstance(item, Tuplet) else (item,))
    ]


def follow_without_a_gap(music: Music) -> None:
    every = [leaf for part in music.parts for leaf in leaves(part.played)]
    assert every[0][0].at == 0
    for (leaf, beats), (following, _) in pairwise(every):
        assert leaf.at + beats == following.at
    assert every[-1][0].at + every[-1][1] == music.beats


@pytest.mark.parametrize("path", sample(FILES, 4), ids=lambda path: path.stem)
@pytest.mark.parametrize("pitches", ["written", "sounding"])
def test_each_point_stands_at_its_time_and_pitch(path, pitches):
    cases = [(case, settings(found)) for found in checked(path) for case in found.cases.values()]
    assert cases
    for case, of_file in cases:
        music = gesture_score(case, of_file, pitches=pitches)
        (part,) = music.parts
        assert (music.instrument, part.mute) == (case.instrument.key, case.gesture.mute)
        assert part.beats == music.beats == case.gesture.beats
        voices = [(part.played, case.gesture.points)]
        voices += [(part.sung, case.gesture.sing.points)] if part.sung is not None else []
        for voice, points in voices:
            shown = {event.index: event for event in voice.everything if event.index is not None}
            assert shown.keys() >= {n for n, point in enumerate(points) if point.reached != "attack"}
            for index, event in shown.items():
                point = points[index]
                assert (event.start, event.sounding_cents) == (point.at, point.sounding_cents)
                assert event.techniques == tuple(t.key for t in case.in_force(point) if event.sounds)
                if point.pitch is not None:
                    sounds = event.head.spelling.pitch_cents + event.head.cents + music.transposition.cents
                    assert sounds == event.sounding_cents
                    asked = on_page(point.pitch, pitches)
                    assert event.head.spelling.pitch_cents + event.head.cents == asked.pitch_cents
                    assert event.head.steps == asked.steps or event.head.tuner is not None
        follow_without_a_gap(music)


@pytest.mark.parametrize("path", sample(FILES, 4), ids=lambda path: path.stem)
def test_passages_are_on_one_clock_and_beams_end(path):
    for case, of_file in [(case, settings(found)) for found in checked(path) for case in passage_cases(found)]:
        music = passage_score(case, of_file)
        follow_without_a_gap(music)
        known = {event.key: event for event in music.events}
        beams = [leaf.beam for part in music.parts for leaf, _ in leaves(part.played) if leaf.beam]
        assert beams == ["start", "end"] * (len(beams) // 2)
        for part in music.parts:
            assert all(event.start >= part.at for event in part.played.events)
            for leaf, _ in leaves(part.played):
                assert known[leaf.key].start <= leaf.at < known[leaf.key].end


@pytest.mark.parametrize("path", sample(FILES, 4), ids=lambda path: path.stem)
def test_a_score_comes_out_of_the_cache_as_it_was(path):
    made = []
    for found in checked(path):
        made += [gesture_score(case, settings(found)) for case in found.cases.values()]
        made += [passage_score(case, settings(found)) for case in passage_cases(found)]
    assert made
    for one in map(lilypond.engraved, made):
        assert _FORM.loads(_FORM.dumps(one)) == one


def test_footnotes_are_numbered_anew_as_values(engraved):
    one = engraved("gesture one\n  technique: growl + flutter-tongue\n  contour: C5, D5 as air\n")["one"]
    assert [mark.numbers for mark in one.music.footnote_marks] == [("1", "2"), ("3",)]
    assert len(one.pieces) == 3
    noted = one.noted({"1": "7", "2": "4, 5", "3": "4"})
    assert [mark.numbers for mark in noted.music.footnote_marks] == [("4", "5", "7"), ("4",)]
    assert noted.music.footnotes == ()
    assert r'\gsMark "4, 5, 7"' in noted.ly
    assert noted.marked(lambda footnotes: pytest.fail("its texts stand elsewhere")) == noted.ly
    assert "gsMark" not in one.unmarked
    assert FootnoteMark(numbers=("3",)) in one.music.marks
