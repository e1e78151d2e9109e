"""`speed` and `width`: waves as they are drawn and heard; wah-wah; the stem of a harmon mute."""

from __future__ import annotations

from itertools import pairwise

import pytest
from tones.performed import tones

from gesturesmith.checker import check_text
from gesturesmith.lang.parse import parse
from gesturesmith.score import gesture_score, passage_score
from gesturesmith.score.marks import SpanStart, TechniqueTurnStart, TrillSign, Waves, Words
from gesturesmith.source import Source
from gesturesmith.tones.types import times_of

HEAD = "instrument: trumpet\npitches: written\ntempo: 60\ngesture a\n  "


def text(body: str) -> str:
    return HEAD + body.replace("; ", "\n  ") + "\n"


def events(body: str):
    made = check_text(Source("a", text(body)), suggestions=False)
    assert made.report.errors == ()
    return gesture_score(made.cases["a"], made.reading.piece.settings).events


def waves(body: str) -> list[Waves]:
    marks = [mark for event in events(body) for mark in event.marks if isinstance(mark, SpanStart | TrillSign)]
    return [mark.waves for mark in marks if mark.waves is not None]


def words(body: str) -> list[str]:
    return [label.first for event in events(body) for label in event.labels if label.first]


def test_speeds_share_the_time_as_levels_do():
    (one,) = waves("technique: vibrato; contour: C5; lasts: 4 beats; speed: slow < fast@1 > slow")
    assert one.speed == ((0, 0.5), (0.25, 2.0), (1, 0.5))
    assert one.width == ((0, 1.0),)


def test_a_step_is_a_step():
    (one,) = waves("technique: vibrato; contour: C5; lasts: 4 beats; width: narrow wide")
    assert one.width == ((0, 0.5), (0.5, 0.5), (0.5, 2.0), (1, 2.0))


def test_each_trill_has_its_part_of_the_course():
    first, second = waves("technique: valve-trill; contour: C5, D5; lasts: 4 beats; speed: slow < fast")
    assert first.speed == ((0, 0.5), (1, 1.25))
    assert second.speed == ((0, 1.25), (1, 2.0))


def test_waves_end_where_the_technique_does_and_nothing_is_cancelled():
    body = "technique: vibrato; contour: C5, D5, E5 without vibrato; lasts: 6 beats; speed: slow < fast"
    (one,) = waves(body)
    assert one.speed[-1][1] == pytest.approx(1.5)
    assert words(body) == []
    assert "ord." in words("technique: vibrato; contour: C5, D5, E5 without vibrato; lasts: 6 beats")


@pytest.mark.parametrize(
    "body",
    [
        "technique: vibrato; contour: C5; lasts: 4 beats",
        "technique: shake; contour: C5; lasts: 4 beats",
        "technique: vibrato + valve-trill; contour: C5; lasts: 4 beats",
    ],
)
def test_nothing_is_drawn_where_nothing_is_asked(body):
    assert waves(body) == []


def test_a_wah_wah_has_its_signs_without_a_speed():
    (one,) = waves("technique: wah-wah; mute: plunger; contour: C5; lasts: 4 beats")
    assert one.signs


def cycles(body: str) -> tuple[float, float]:
    """The waves in the first and in the last second of four."""
    (tone,) = tones("C5", "lasts: 4 beats", *body.split("; "), instrument="trumpet", tempo=60)
    (wave,) = tone.waves
    return wave.cycles(0, 1), wave.cycles(3, 4)


def test_the_speed_is_heard():
    assert cycles("technique: vibrato; speed: slow") == pytest.approx((3, 3))
    assert cycles("technique: vibrato; speed: 2 < 6") == pytest.approx((2.5, 5.5))
    slow, fast = cycles("technique: valve-trill; speed: slow < fast")
    assert slow < fast


def test_the_width_is_heard():
    (tone,) = tones("C5", "lasts: 4 beats", "technique: vibrato", "width: narrow < wide", instrument="trumpet")
    (wave,) = tone.waves
    assert wave.cents[-1][1] == 4 * wave.cents[0][1]


def test_a_wah_wah_is_heard_to_close_and_open_faster_and_faster():
    (tone,) = tones(
        "C5",
        "lasts: 4 beats",
        "technique: wah-wah",
        "mute: plunger",
        "speed: 1 < 4",
        instrument="trumpet",
        tempo=60,
    )
    assert tone.waves == ()
    assert {value for _, value in tone.hand} == {0, 1}
    assert tone.hand[0][1] == 1
    gaps = [b[0] - a[0] for a, b in pairwise(tone.hand)][:-1]
    assert gaps == sorted(gaps, reverse=True)
    assert 18 <= len(gaps) <= 21  # ten waves, each closed and open


def test_times_of_equal_areas():
    assert times_of(((0.0, 2.0), (2.0, 2.0)), 0.0, 2.0, 1.0) == pytest.approx((0, 0.5, 1, 1.5, 2))


def test_a_stem_moves_along_a_line():
    turns = [
        mark
        for event in events("mute: harmon; contour: C5 as stem-in -- C5@4 as stem-out, C5@6; lasts: 8 beats")
        for mark in event.marks
        if isinstance(mark, TechniqueTurnStart)
    ]
    assert [(t.here, t.there) for t in turns] == [("stem in", "stem out")]


def test_a_stem_brings_its_mute():
    assert words("technique: stem-out; contour: C5") == ["con sord. (harmon)", "stem out"]


def test_a_stem_goes_with_its_mute_and_another_mute_comes_before_its_stem():
    source = (
        "instrument: trumpet\npitches: written\ngesture one\n  technique: muted\n  contour: C5\n"
        "gesture two\n  technique: stem-out\n  contour: C5\ngesture three\n  contour: C5\n"
        "passage p\n  play: one, rest 8, two, rest 8, three\n"
    )
    made = check_text(Source("a", source), suggestions=False)
    music = passage_score(made.passage_cases["p"], made.reading.piece.settings)
    said = [label.first for event in music.events for label in event.labels if label.first]
    assert said == ["con sord. (straight)", "con sord. (harmon)", "stem out", "senza sord."]


@pytest.mark.parametrize(
    ("line", "part"),
    [
        ("speed: slow to fast", "slow < fast"),
        ("speed: fast < slow", "< means faster"),
        ("speed: 5 > 7", "> the opposite"),
        ("speed: 72", "beats a minute are `tempo`"),
        ("speed: quick", "not a speed"),
        ("width: 5", "narrow"),
        ("width: wide < narrow", "< means wider"),
        ("speed: slow@5 < fast", "beats"),
        ("speed: slow <", "slow"),
    ],
)
def test_what_is_wrong_is_said(line, part):
    made = check_text(
        Source("a", text(f"technique: vibrato; contour: C5; lasts: 4 beats; {line}")), suggestions=False
    )
    assert len(made.report.errors) == 1
    assert part in made.report.errors[0].message


def test_it_is_written_as_it_is_read():
    from gesturesmith.lang.format import format_text

    source = text("technique: vibrato; contour: C5; speed: slow<fast @3 > 4".replace(" @3", "@3"))
    assert "  speed: slow < fast@3 > 4\n" in format_text(Source("a", source))
    assert parse(Source("a", source))[1] == ()


# A number of waves a second cannot be seen in a wave: it is printed beside the word or over the sign.
@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ("technique: vibrato; contour: C5; lasts: 4 beats; speed: 5", ["vib. 5/s"]),
        ("technique: vibrato; contour: C5; lasts: 4 beats; speed: 3 < 13/2", ["vib. 3–6.5/s"]),
        ("technique: vibrato; contour: C5; lasts: 4 beats; speed: slow < 7@2 > slow", ["vib. 7/s"]),
        ("technique: vibrato; contour: C5; lasts: 4 beats; speed: slow", ["vib."]),
        ("technique: wah-wah; mute: plunger; contour: C5; lasts: 4 beats; speed: 2", ["wah-wah 2/s"]),
        ("technique: valve-trill; trill: half; contour: C5; lasts: 4 beats; speed: 6", ["6/s"]),
        ("technique: valve-trill; trill: half; contour: C5, D5; lasts: 4 beats; speed: 4 < 8@1", ["4–8/s", "8/s"]),
    ],
)
def test_speeds_given_by_number_are_printed(lines, said):
    marks = [mark for event in events(lines) for mark in event.marks]
    shown = [m.text if isinstance(m, Words) else m.word for m in marks if isinstance(m, Words | SpanStart)]
    assert shown == said
