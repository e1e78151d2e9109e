"""Just intervals and harmonics: what they sound, on which tube they are played, and what is wrong with them.

The cents are those of the series: partials 5, 7 and 11 lie 13.7, 31.2 and 48.7 cents below tempered notes.
"""

from __future__ import annotations

import pytest

from gesturesmith.checker.file import check_text
from gesturesmith.source import Source

HORN = "instrument: horn\npitches: {pitches}\n"


def checked(*lines: str, pitches: str = "written", top: str = HORN):
    text = top.format(pitches=pitches) + "gesture a\n" + "".join(f"  {line}\n" for line in lines)
    return check_text(Source("a.gesture", text))


def names(*lines: str, **how: str) -> list[str]:
    case = checked(*lines, **how).cases["a"]
    return [p.pitch.written.name for p in case.gesture.points if p.pitch is not None]


@pytest.mark.parametrize(
    ("text", "name"),
    [("7/4 of C4", "Bb4-31c"), ("5/4 of F#4", "A#4-14c"), ("11/8 of C4", "F#4-49c"), ("3/2 of C4", "G4+2c"),
     ("1/2 of C5", "C4"), ("2/3 of G4", "C4-2c"), ("5/4 of C4+14c", "E4")],
)  # fmt: skip
def test_a_just_interval_is_named_by_its_interval(text, name):
    assert names(f"contour: {text}") == [name]


def test_a_ratio_is_the_same_in_written_and_sounding_files():
    assert names("contour: 7/4 of C4") == names("contour: 7/4 of F3", pitches="sounding")


@pytest.mark.parametrize(
    ("text", "name", "tube", "partial"),
    [("F 0:8", "C5", "F 0", 8), ("F 0:11", "F#5-49c", "F 0", 11), ("partial 7 of Bb 0", "Eb5-31c", "Bb 0", 7),
     ("Bb 0:4", "F4", "Bb 0", 4)],
)  # fmt: skip
@pytest.mark.parametrize("pitches", ["written", "sounding"])
def test_a_harmonic_sounds_as_its_tube_gives_it_and_is_played_on_it(text, name, tube, partial, pitches):
    case = checked(f"contour: {text}", pitches=pitches).cases["a"]
    (point,) = case.gesture.points
    (played,) = case.realisation.points
    assert point.pitch is not None
    assert point.pitch.written.name == name
    assert played.tube is not None
    assert (played.tube.name, played.partial, played.given) == (tube, partial, True)
    assert abs(played.error_cents) <= 0.5


def test_the_slide_has_harmonics_by_position():
    case = checked("contour: 3:7", top="instrument: trombone\n").cases["a"]
    (played,) = case.realisation.points
    assert played.tube is not None
    assert (played.tube.name, played.partial) == ("3", 7)


def test_auto_leaves_a_point_to_the_player():
    case = checked("contour: G4, A4, Bb4", "fingering: auto, F 1-2-3, auto").cases["a"]
    assert [p.given for p in case.realisation.points] == [False, True, False]
    assert [p.standard for p in case.realisation.points] == [True, False, True]


def test_harmonics_and_fingerings_go_together():
    case = checked("contour: F 0:8, C5, r, E5", "fingering: auto, Bb 1-3, auto").cases["a"]
    assert case.gesture.fingering.tubes == ("F 0", "Bb 1-3", "")


@pytest.mark.parametrize(
    ("lines", "rule", "words"),
    [
        (("contour: F 4:8",), "no-such-harmonic", "has no tube F 4"),
        (("contour: 0:8",), "no-such-harmonic", "`F 0:8` or `Bb 0:8`"),
        (("contour: F 0:40",), "no-such-harmonic", "19 is the highest"),
        (("contour: 32 of C6",), "no-such-harmonic", "outside C0 to B9"),
        (("contour: F 0:8", "fingering: Bb 0"), "fingering-twice", "`F 0`"),
        (("contour: F 0:8", "fingering: held"), "fingering-twice", "`held`"),
    ],
)
def test_each_wrong_harmonic_has_its_message(lines, rule, words):
    errors = checked(*lines).report.errors
    assert [e.rule for e in errors] == [rule]
    assert words in errors[0].message


def test_a_harmonic_that_is_moved_is_a_note_like_any_other():
    text = HORN.format(pitches="written") + "gesture a\n  contour: F 0:8, F 0:9\npassage p\n  play: a up M2\n"
    case = check_text(Source("a.gesture", text)).passage_cases["p"]
    assert {p.given for inner in case.cases if inner is not None for p in inner.realisation.points} == {False}


def test_harmonics_and_ratios_are_played_in_passages_and_boxes():
    """`F 0:11` on the open F side, as in a contour; graces too."""
    text = HORN.format(pitches="written") + (
        "box echo\n  play: F 0:11 for 1/2, rest 1/2\n  lasts: 8 s\n"
        "passage p\n  play: 7/4 of C4 for 1, F 0:9 grace, 5/4 of C4 grace, partial 10 of F 1 for 2 accent, echo\n"
    )
    found = check_text(Source("a.gesture", text))
    assert not found.reading.errors
    ratio, tube, box, *_ = [c for c in found.passage_cases["p"].cases if c is not None]
    assert ratio.gesture.points[0].pitch.written.name == "Bb4-31c"
    assert ratio.gesture.fingering.mode == "auto"
    assert tube.realisation.points[0].tube.name == "F 1"
    assert tube.realisation.points[0].partial == 10
    assert [g.point.pitch.written.name for g in tube.gesture.points[0].graces] == ["D5+4c", "E4-14c"]
    assert box.realisation.points[0].tube.name == "F 0"


def test_a_harmonic_in_a_passage_needs_its_length():
    text = HORN.format(pitches="written") + "passage p\n  play: F 0:11\n"
    (error,) = check_text(Source("a.gesture", text)).reading.errors
    assert "how long?" in error.message
