"""Gestures transposed, stretched, inverted and retimed, in passages and exercises."""

from __future__ import annotations

from fractions import Fraction

import pytest

from gesturesmith.model.reading import read
from gesturesmith.source import Source


def written(gesture):
    return " ".join(p.pitch.written.name if p.pitch else p.extreme or f"{p.percent}%" for p in gesture.points)


# contour, move -> written names; spellings of intervals as music21 10.5.1 `transpose` gives them
MOVES = [
    ("G4, B4", "up M2", "A4 C#5"),
    ("G4, Bb4", "up m2", "Ab4 Cb5"),
    ("F#4", "up A4", "B#4"),
    ("F#4", "up 6", "C5"),
    ("G4, B4", "up 1", "Ab4 C5"),
    ("C#4, Db4", "up 2", "Eb4 Eb4"),  # respelled
    ("C#4, Db4", "up M2", "D#4 Eb4"),  # kept
    ("G4", "down P5", "C4"),
    ("G4", "down 7", "C4"),
    ("xG4, C4+31c", "up M3", "B4 E4+31c"),
    ("xG4, C4+31c", "up 4", "B4 E4+31c"),
    ("F^4, Bbv4", "up M2", "G^4 Cv5"),
    ("F^4, Bbv4", "up 2", "G^4 B^4"),
    ("G4, highest", "up M2", "A4 highest"),
    ("G4", "up m10", "Bb5"),
]


@pytest.mark.parametrize(("contour", "move", "expected"), MOVES)
def test_moves_in_a_passage(piece, contour, move, expected):
    made = piece(f"gesture a\n  contour: {contour}\npassage p\n  play: a {move}, a\n")
    moved, plain = (i.gesture for i in made.passages[0].items)
    assert written(moved) == expected
    assert plain == made.gestures[0]
    for point in moved.points:
        if point.pitch is not None:  # the horn always sounds a fifth lower
            assert point.pitch.written.pitch_cents - point.pitch.sounding.pitch_cents == 700
            assert point.sounding_cents == point.pitch.cents


def test_a_band_of_pitches_moves_with_its_heights(piece):
    made = piece("gesture a\n  band: G4..F5\n  contour: low, 50%, A4\npassage p\n  play: a up M2\n")
    moved = made.passages[0].items[0].gesture
    assert (moved.band.low.written.name, moved.band.high.written.name) == ("A4", "G5")
    assert [p.sounding_cents for p in moved.points] == [6200, 6700, 6400]


def test_the_sung_line_moves_too(piece):
    made = piece("gesture a\n  contour: F3\n  sing: C4, D4\npassage p\n  play: a up M2\n")
    assert [p.pitch.written.name for p in made.passages[0].items[0].gesture.sing.points] == ["D4", "E4"]


def test_moving_there_and_back(piece):
    made = piece(
        "gesture a\n  contour: F#4 ~~ Bb4\npassage there\n  play: a up m3\npassage back\n  play: there down m3\n"
    )
    assert made.passages[1].items[0].gesture == made.gestures[0]


def test_a_nested_passage_moves_as_a_whole(piece):
    made = piece(
        "gesture a\n  contour: G4\npassage in\n  play: a, rest 2, C4 for 1\n  repeat: 2\n"
        "passage out\n  play: in up M2\n"
    )
    items = made.passages[1].items
    assert [written(i.gesture) if i.gesture else "rest" for i in items] == ["A4", "rest", "D4"] * 2
    assert [i.at for i in items] == [0, 1, 3, 4, 5, 7]
    assert {i.span for i in items} == {made.passages[1].items[0].span}  # where the outer passage plays it


def test_seconds_stay_seconds_at_the_passage_tempo(piece):
    made = piece(
        "gesture a\n  contour: G4 ~~ A4@1, C5@2\n  lasts: 3 s\n  dynamics: p < f@2\n"
        "passage p\n  tempo: 90\n  play: a, C4 for 3\n"
    )
    inside = made.passages[0].items[0].gesture
    assert (inside.beats, inside.seconds, inside.tempo) == (Fraction(9, 2), 3, 90)
    assert [inside.seconds_at(p.at) for p in inside.points] == [0, 1, 2]
    assert [inside.seconds_at(m.at) for m in inside.dynamics] == [0, 2]
    assert made.passages[0].items[1].at == Fraction(9, 2)
    assert made.passages[0].items[1].gesture.seconds == 2


def test_repeat_signs_and_frame(piece):
    made = piece(
        'gesture a\n  contour: G4\npassage p "P"\n  tempo: "Slow" 50\n  meter: 3/4\n'
        "  play: a, rest 2\n  repeat: 3\n"
    ).passages[0]
    (repeat,) = made.repeats
    assert (repeat.start, repeat.end, repeat.times) == (0, 3, 3)
    assert (made.title, made.tempo, made.tempo_text, made.meter, made.beats) == ("P", 50, "Slow", (3, 4), 3)


def test_a_passage_without_tempo_or_meter_takes_those_of_the_file(piece):
    top = 'instrument: horn\npitches: written\ntempo: "Calm" 66\nmeter: 4/4\n'
    made = piece("gesture a\n  contour: G4\npassage p\n  play: a\n", top).passages[0]
    assert (made.tempo, made.tempo_text, made.meter) == (66, "Calm", (4, 4))


def test_a_plain_pitch_may_turn_to_a_technique(piece):
    item = piece("passage p\n  play: C4 for 1/2 as muted accent pp\n").passages[0].items[0]
    assert [t.key for t in item.gesture.techniques] == ["muted"]
    assert (item.gesture.mute, item.gesture.name, item.played, item.beats) == ("straight", "", "", Fraction(1, 2))


def test_names_are_found_whatever_their_case(piece):
    assert (
        piece("gesture Beacon\n  contour: G4\npassage p\n  play: beacon\n").passages[0].items[0].played == "Beacon"
    )


# -- exercises ----------------------------------------------------------------------------------------------


@pytest.fixture
def variants(piece):
    """The variants of a gesture by the lines of an exercises block, each with its label."""

    def make(lines, exercise, top="instrument: horn\npitches: written\n"):
        block = "".join(f"  {line}\n" for line in lines.split("; "))
        made = piece(
            f"gesture a\n{block}exercises e\n  from: a\n" + "".join(f"  {x}\n" for x in exercise.split("; ")), top
        )
        found = made.exercises[0]
        return list(zip(found.labels, found.variants, strict=True))

    return make


BEACON = "contour: G4 ~~ C5@1 ~~ F#4"

PITCHES = [
    ("start: A4", "from A4", "A4 D5 G#4"),
    ("start: Ab4", "from Ab4", "Ab4 Db5 G4"),
    ("start: F#4", "from F#4", "F#4 B4 E#4"),
    ("start: Cb5", "from Cb5", "Cb5 Fb5 Bb4"),
    ("start: G^4", "from G^4", "G^4 C^5 Gv4"),  # one quarter reads more easily than three, and the chart has it
    ("start: C#4+20c", "from C#4+20c", "C#4+20c F#4+20c C4+20c"),  # not B#3+20c's neighbour by a double sign
    ("stretch: 2", "intervals times 2", "G4 F5 F4"),
    ("stretch: 1/2", "intervals times 0.5", "G4 A^4 F#^4"),
    ("stretch: 1/3", "intervals times 1/3", "G4 A4-33c G4-33c"),
    ("start: A4; stretch: 2", "from A4, intervals times 2", "A4 G5 G4"),
]


@pytest.mark.parametrize(("lines", "label", "expected"), PITCHES)
def test_pitches_of_variants(variants, lines, label, expected):
    ((words, made),) = variants(BEACON, lines)
    assert (words, written(made)) == (label, expected)


def test_a_range_of_starts_is_spelled_as_usual_between_its_ends(variants):
    names = [written(v).split()[0] for _, v in variants(BEACON, "start: G#4..Db5 by 1")]
    assert names == ["G#4", "A4", "Bb4", "B4", "C5", "Db5"]
    assert [written(v).split()[0] for _, v in variants(BEACON, "start: C5..G4 by 2")] == ["C5", "Bb4", "Ab4"]


def test_approximate_pitches_stay_on_semitones(variants):
    ((_, made),) = variants("contour: xG4 ~~ xA4 ~~ A4 ~~ xBb4", "stretch: 3/4")
    assert written(made) == "G4 Ab4 G#^4 A4"
    assert [p.about for p in made.points] == [True, True, False, True]


def test_mirror_adds_each_variant_turned_over(variants):
    made = variants("band: G4..F5; contour: G4 ~~ C5, low, highest", "mirror: yes; tempo: 60, 72")
    assert [words for words, _ in made] == [
        "tempo 60",
        "tempo 72",
        "upside down, tempo 60",
        "upside down, tempo 72",
    ]
    turned = made[2][1]
    assert written(turned) == "G4 D4 100% lowest"
    assert (turned.band.low.written.name, turned.band.high.written.name) == ("A3", "G4")
    assert turned.points[2].sounding_cents == turned.band.high.cents


def test_lengths_scale_the_times_inside(variants):
    made = variants("contour: G4 ~~ C5@1 ~~ F#4@3; lasts: 4 beats; dynamics: p < f@3", "lasts: 8, 1 beats")
    assert [words for words, _ in made] == ["8 beats", "1 beat"]
    assert [[p.at for p in v.points] for _, v in made] == [[0, 2, 6], [0, Fraction(1, 4), Fraction(3, 4)]]
    assert [[p.until for p in v.points] for _, v in made] == [[2, 6, 8], [Fraction(1, 4), Fraction(3, 4), 1]]
    assert [[m.at for m in v.dynamics] for _, v in made] == [[0, 6], [0, Fraction(3, 4)]]
    assert all(v.points[-1].held for _, v in made)


def test_lengths_in_seconds_at_every_tempo(variants):
    made = variants("contour: G4 ~~ C5", "lasts: 1..2 by 1/2 s; tempo: 60, 90")
    assert [words for words, _ in made] == [
        "1 s, tempo 60", "1 s, tempo 90", "1.5 s, tempo 60", "1.5 s, tempo 90", "2 s, tempo 60", "2 s, tempo 90",
    ]  # fmt: skip
    assert [v.seconds for _, v in made] == [1, 1, Fraction(3, 2), Fraction(3, 2), 2, 2]
    assert all(v.in_seconds for _, v in made)


def test_a_tempo_keeps_beats(variants):
    ((_, made),) = variants("contour: G4 ~~ C5", "tempo: 120")
    assert (made.beats, made.seconds) == (2, 1)


def test_dynamics_replace_those_of_the_gesture_and_scale(variants):
    made = variants("contour: G4 ff ~~ C5", "lasts: 4 beats; dynamics: p < f@1 > p, mf")
    assert [words for words, _ in made] == ["4 beats, p < f@1 > p", "4 beats, mf"]
    marks = [[(m.level, m.at, m.join) for m in v.dynamics] for _, v in made]
    assert marks == [[("p", 0, "<"), ("f", 2, ">"), ("p", 4, "")], [("mf", 0, "")]]
    assert {p.dynamic for _, v in made for p in v.points} == {""}


def test_bands_hold_the_same_heights(variants):
    made = variants("band: middle; contour: low, 50%, high", "band: G4..F5, low")
    assert [words for words, _ in made] == ["in G4 to F5", "in low"]
    assert [p.sounding_cents for p in made[0][1].points] == [6000, 6500, 7000]
    assert made[1][1].band.register == "low"
    assert made[1][1].points[0].sounding_cents == made[1][1].band.low.cents


def test_heights_in_a_band_of_pitches_start_where_asked(variants):
    ((_, made),) = variants("band: G4..F5; contour: mid, high", "start: E5")
    assert made.points[0].sounding_cents == 6900  # written E5 sounds A4
    assert made.points[1].sounding_cents - made.points[0].sounding_cents == 500


def test_nothing_but_an_origin_makes_one_variant(variants):
    ((words, made),) = variants(BEACON, "keep: all")
    assert (words, made.name) == ("as written", "e-1")


def test_everything_else_of_a_block(piece):
    made = piece(
        'gesture a\n  contour: G4\nexercises e "Week"\n  from: a\n  order: easiest first\n  keep: one page\n'
        '  times: 3\n  fingerings: all\n  meter: free\n  instruction: "Slow."\n'
        "exercises f\n  from: a\n  keep: 12\n"
    )
    one, other = made.exercises
    assert (one.title, one.origin, one.order, one.keep, one.times) == ("Week", "a", "easiest first", "one page", 3)
    assert (one.fingerings, one.meter, one.instruction) == ("all", None, "Slow.")
    assert (other.title, other.order, other.keep, other.times) == (None, "as listed", 12, 1)
    assert (other.fingerings, other.meter, other.instruction) == (None, (4, 4), None)


def test_five_hundred_variants_are_the_most(variants):
    assert len(variants(BEACON, "tempo: 51..300 by 1; mirror: yes")) == 500


GRACED = "C4 grace, D4 grace, E4 grace, F4, G4 __ A4 grace"


def test_a_drill_of_graces_keeps_those_next_to_the_note(variants):
    made = variants(f"contour: {GRACED}", "graces: 0, 1, 3")
    assert [label for label, _ in made] == ["without graces", "1 grace note", "3 grace notes"]
    names = [[g.point.pitch.written.name for p in v.points for g in (*p.graces, *p.after)] for _, v in made]
    assert names == [[], ["E4", "A4"], ["C4", "D4", "E4", "A4"]]


def test_a_drill_of_repeats_replaces_only_them(variants):
    made = variants("contour: C5 eighths, D5", "strokes: eighths, sixteenths, unmeasured; lasts: 2, 4 beats")
    assert [[p.strokes for p in v.points] for _, v in made] == [
        [strokes, ""] for _ in range(2) for strokes in ("eighths", "sixteenths", "unmeasured")
    ]
    assert made[1][0] == "2 beats, in sixteenths"


@pytest.mark.parametrize(
    ("contour", "exercise", "words"),
    [
        ("C5, D5", "graces: 1", "it has no grace notes"),
        ("C5, D5", "strokes: eighths", "none of its notes is repeated"),
        ("C5 for 1/2 sixteenths", "strokes: eighths", "no whole number of eighths"),
    ],
)
def test_a_drill_of_what_is_not_there_is_told(contour, exercise, words):
    text = f"gesture a\n  contour: {contour}\nexercises e\n  from: a\n  {exercise}\n"
    (error,) = read(Source("a.gesture", f"instrument: horn\npitches: written\n{text}")).errors
    assert error.rule == "cannot-vary"
    assert words in error.message
