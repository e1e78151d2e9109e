# ruff: noqa: E501  (a case a line)
"""A reader must see one line that passes through its points at their time and height, with even waves, and stops short of
everything printed. Measured in LilyPond's own SVG, in staff spaces.

Heights are compared with arithmetic: a step of a written pitch is half a staff space, B4 is the middle line of the
treble clef (D3 of the bass clef).
"""

from __future__ import annotations

from typing import NamedTuple

import pytest
from golden.geometry import compile_svg, gaps, misses, off_points, score, uneven
from sampling import sample

pytestmark = pytest.mark.lilypond


class Case(NamedTuple):
    """Music, the staff positions of its line's points (0 the middle line), the style, what the staff is given."""

    music: str
    positions: list[float]
    style: str = "wavy"
    staff: str = ""


WAVY = r"\gsLine #'((style . wavy)) "
PLAIN = r"\gsLine #'((style . plain)) "
SMALL = r"\magnifyStaff #2/3"
BIG = r"\magnifyStaff #3/2"
THREE = r"\gsThreeLines"

CASES = {
    "rising": Case(rf"\gsX g'4{WAVY} \gsStemless \gsX d''4 \gsStemless \gsX f''4 \gsX a''4\gsLineEnd", [-2, 2, 4, 6]),
    "falling": Case(rf"\gsX a''4{WAVY} \gsStemless \gsX e''4 \gsX d'4\gsLineEnd", [6, 3, -5]),
    "turning": Case(rf"\gsX g'4{WAVY} \gsX d''4 \gsX b'4 \gsX f''4\gsLineEnd", [-2, 2, 0, 4]),
    "level": Case(rf"\gsX g'4{WAVY} \gsX g'4 \gsX g'4\gsLineEnd", [-2, -2, -2]),
    "leap": Case(rf"\gsX c'4{WAVY} \gsX a''4\gsLineEnd", [-6, 6]),
    "low": Case(rf"\gsX g4{WAVY} \gsX c'4 \gsX a4\gsLineEnd", [-9, -6, -8]),
    "high": Case(rf"\gsX c'''4{WAVY} \gsX e'''4 \gsX a''4\gsLineEnd", [8, 10, 6]),
    "long": Case(rf"\gsX g'1{WAVY} s1 s1 \gsX d''1\gsLineEnd", [-2, 2]),
    "accidentals": Case(rf"\gsX gf'4{WAVY} \gsStemless fs''4 \gsStemless \gsX bqf'4 cs''4\gsLineEnd", [-2, 4, 0, 1]),
    "dots": Case(rf"\gsX g'4.{WAVY} \gsX d''4. \gsX b'4\gsLineEnd", [-2, 2, 0]),
    "halves and wholes": Case(rf"\gsX g'2{WAVY} \gsX d''2 \gsX b'1\gsLineEnd", [-2, 2, 0]),
    "beams": Case(rf"\gsX g'8[{WAVY} \gsX d''] \gsX b'16[ \gsX f''] \gsX c'4\gsLineEnd", [-2, 2, 0, 4, -6]),
    "tuplet and tie": Case(rf"\tuplet 3/2 {{ \gsX g'8{WAVY} \gsX b' \gsX d'' }} \gsX f''4~ \gsX f''8 \gsX c''8\gsLineEnd", [-2, 0, 2, 4, 4, 1]),
    "growing": Case(r"\gsX g'4\gsLine #'((style . wavy) (growth . growing)) s2 \gsX d''4\gsLineEnd", [-2, 2]),
    "fading": Case(r"\gsX g'4\gsLine #'((style . wavy) (growth . fading)) s4 \gsX f''4 \gsX d''4\gsLineEnd", [-2, 4, 2]),
    "stops": Case(rf"\gsX g'2{WAVY} \gsStemless \gsX d''4 \gsStemless \gsX \afterGrace 63/64 b'4 {{ \gsStops \gsX f''8\gsLineEnd }}", [-2, 2, 0, 4]),
    "straight": Case(rf"g'4{PLAIN} \gsStemless d''4 b'4 f''4\gsLineEnd", [-2, 2, 0, 4], "plain"),
    "two lines": Case(rf"\gsX g'4{WAVY} \gsX d''4\gsLineEnd{WAVY} \gsX b'4\gsLineEnd", [-2, 2, 0]),
    "transposed": Case(rf"\transpose c d {{ \gsX g'4{WAVY} \gsX d''4 \gsX b'4\gsLineEnd }}", [-1, 3, 1]),
    "bass clef": Case(rf"\clef bass \gsX d4{WAVY} \gsX a4 \gsX b,4\gsLineEnd", [0, 4, -2]),
    "heights": Case(rf"\gsHeight #-4 \gsX c''4{WAVY} \gsHeight #0 \gsX c''4 \gsHeight #5/2 \gsX c''4\gsLineEnd", [-4, 0, 2.5]),
    "heights, transposed": Case(rf"\transpose c fs {{ \gsHeight #-4 \gsX c''4{WAVY} \gsHeight #4 \gsX c''4\gsLineEnd }}", [-4, 4]),
    "three lines": Case(rf"\gsHeight #-4 \gsX c''4{WAVY} \gsHeight #4 \gsX c''4 \gsHeight #0 \gsX c''4\gsLineEnd", [-4, 4, 0], "wavy", THREE),
    "small staff": Case(rf"\gsX g'4{WAVY} \gsX d''4 \gsX b'4 \gsX f''4\gsLineEnd", [-2, 2, 0, 4], "wavy", SMALL),
    "big staff": Case(rf"\gsX g'4{WAVY} \gsX d''4 \gsX b'4 \gsX f''4\gsLineEnd", [-2, 2, 0, 4], "wavy", BIG),
    "tenor clef": Case(rf"\clef tenor \gsX a4{WAVY} \gsX e'4 \gsX f4\gsLineEnd", [0, 4, -2]),
    "clef change": Case(rf"\clef bass \gsX d4{WAVY} \gsX a4 \clef treble \gsX g'4 \gsX d''4\gsLineEnd", [0, 4, -2, 2]),
    "transposed, bass clef": Case(rf"\clef bass \transpose c a, {{ \gsX d4{WAVY} \gsX a4 \gsX c'4\gsLineEnd }}", [-2, 2, 4]),
    "at a rest": Case(rf"\gsX g'4{WAVY} \gsX d''4\gsLineEnd r4", [-2, 2]),
    "stops at a rest": Case(rf"\gsX g'4{WAVY} \afterGrace 63/64 s4 {{ \gsStops \gsX f''8\gsLineEnd }} r2", [-2, 4]),
    "before a bar line": Case(rf"\time 3/4 \gsX g'2{WAVY} \afterGrace 63/64 s4 {{ \gsStops \gsX fs''8\gsLineEnd }} | c'2.", [-2, 4]),
    "over a bar line": Case(rf"\time 2/4 r4 \gsX g'4{WAVY} | s4 \gsX d''4 | \gsX b'2\gsLineEnd", [-2, 2, 0]),
    "from a grace note": Case(rf"\grace {{ \gsX c'8{WAVY} }} \gsX c''2\gsLineEnd", [-6, 1]),
    "broken": Case(r"\gsX g'4\gsLine #'((style . broken)) \gsX d''4 \gsX b'4 \gsX f''4\gsLineEnd", [-2, 2, 0, 4], "broken"),
    "dotted": Case(r"\gsX g'4\gsLine #'((style . dotted)) \gsX d''4 \gsX b'4 \gsX f''4\gsLineEnd", [-2, 2, 0, 4], "dotted"),
    "semitone": Case(rf"b'4{PLAIN} \gsStemless bf'4 b'4\gsLineEnd", [0, 0, 0], "plain"),
    "eighth tones": Case(rf"a'4{PLAIN} \gsStemless a'4\gsCents #-25 \gsStemless aqf'4 a'4\gsLineEnd\gsCents #-25", [-1, -1, -1, -1], "plain"),
    "on a staff line": Case(rf"d''4{PLAIN} \gsStemless d''4\gsLineEnd", [2, 2], "plain"),
}  # fmt: skip  # one row a case

WAVES = [name for name, case in CASES.items() if case.style == "wavy"]
RAGGED = "ragged-right = ##t"
UNCUT = r" \context { \Voice \override GestureContour.details.uncut = ##t }"


@pytest.fixture(scope="module")
def compiled(tmp_path_factory):
    scores = [score(c.music, c.staff, RAGGED + how) for how in ("", UNCUT) for c in CASES.values()]
    return compile_svg(scores, tmp_path_factory.mktemp("cases"))


@pytest.fixture(scope="module")
def pictures(compiled):
    """As printed."""
    return dict(zip(CASES, compiled[: len(CASES)], strict=True))


@pytest.fixture(scope="module")
def uncut(compiled):
    """The same lines, drawn through heads and all."""
    return dict(zip(CASES, compiled[len(CASES) :], strict=True))


@pytest.mark.parametrize("name", CASES)
def test_points_are_heads_at_their_heights(pictures, name):
    picture = pictures[name]
    assert [p.y * 2 / picture.unit for p in picture.points] == pytest.approx(CASES[name].positions, abs=0.01)


# Straight lines between heads at the same height tilt away from the staff line, or they would be invisible.
LEANING = ("semitone", "eighth tones", "on a staff line")
LEAN = 0.33


@pytest.mark.parametrize("name", CASES)
def test_the_line_goes_through_its_points(uncut, name):
    height = LEAN if name in LEANING else 0.2
    assert off_points(uncut[name], wavy=CASES[name].style == "wavy", height=height) == []


@pytest.mark.parametrize("name", CASES)
def test_the_line_stops_short_of_heads_and_accidentals(pictures, name):
    assert len(pictures[name].stretches) >= len(pictures[name].points) - 1
    assert misses(pictures[name]) == []


def test_a_straight_line_does_not_lie_on_a_line_of_the_staff(pictures):
    """A line of the staff is 0.1 thick, ours 0.16: with 0.3 between their middles there is as much white between them as
    they are thick. Through a semitone the line crosses to the other side."""
    level = pictures["on a staff line"]
    assert all(abs(y - 1.0) > 0.3 for stretch in level.stretches for _, y in stretch.drawn)
    for stretch in pictures["semitone"].stretches:
        (_, begins), (_, ends) = stretch.drawn[0], stretch.drawn[-1]
        assert abs(begins - ends) > 0.25
    down, up = pictures["semitone"].stretches
    assert down.drawn[0][1] > down.drawn[-1][1]
    assert up.drawn[0][1] < up.drawn[-1][1]


def test_a_line_leans_by_the_cents_above_its_heads(pictures):
    """A, an eighth tone lower, a quarter tone lower, up again: each stretch goes the way of the pitch."""
    down, further, up = pictures["eighth tones"].stretches
    for stretch, way in ((down, 1), (further, 1), (up, -1)):
        assert way * (stretch.drawn[0][1] - stretch.drawn[-1][1]) > 0.1


@pytest.mark.parametrize("name", ["stops at a rest", "before a bar line", "stops"])
def test_a_line_stops_at_its_bracketed_head(pictures, name):
    """White space follows: whatever comes next is at least a staff space further on."""
    picture = pictures[name]
    end = max(x for stretch in picture.stretches for x, _ in stretch.drawn)
    assert end < picture.points[-1].x


@pytest.mark.parametrize("name", WAVES)
def test_waves_are_whole_and_even(pictures, name):
    assert uneven(pictures[name]) == []


@pytest.mark.parametrize("name", CASES)
def test_no_point_is_higher_or_lower_than_those_given(uncut, name):
    """A smooth curve does not overshoot its highest and lowest point. Straight lines tilt away from a staff line."""
    picture = uncut[name]
    most = 0.05 if CASES[name].style != "plain" else 0.2
    most = LEAN if name in LEANING else most
    line = [y for s in picture.stretches for _, y in s.middle(CASES[name].style == "wavy")]
    heights = [p.y for p in picture.points]
    assert max(line) <= max(heights) + most
    assert min(line) >= min(heights) - most


def test_the_gap_is_the_same_at_every_head(pictures):
    """Between heads at the same height there is nothing else to stop short of."""
    found = gaps(pictures["level"])
    assert max(found) - min(found) < 0.1
    assert 0.2 < min(found) < 0.6


def test_a_line_jumps_where_it_is_told(tmp_path):
    """Against the grain: a quarter and three quarters of the way it is two steps below the straight way, and at once
    as far above."""
    line = r"\gsLine #'((style . plain) (uncut . #t) (turns . ((1/4 . -2) (1/4 . 2) (3/4 . -2) (3/4 . 2))))"
    (picture,) = compile_svg([score(rf"g'4{line} s2. \gsStemless d''4\gsLineEnd")], tmp_path)
    first, last = picture.points
    for share in (0.25, 0.75):
        x = first.middle + share * (last.middle - first.middle)
        there = [y for stretch in picture.stretches for a, y in stretch.drawn if abs(a - x) < 0.4]
        straight = first.y + share * (last.y - first.y)
        assert min(there) == pytest.approx(straight - 1, abs=0.2)
        assert max(there) == pytest.approx(straight + 1, abs=0.2)


def test_a_wave_grows_and_fades(pictures):
    """The amplitude at the end of a growing line is at least twice that at its beginning; fading, the reverse."""

    def swings(stretch):
        middle = dict(enumerate(stretch.nodes))
        crests = [i for i in middle if i % 2]
        return [abs(middle[i][1] - (middle[i - 1][1] + middle[i + 1][1]) / 2) for i in crests]

    growing = [s for stretch in pictures["growing"].stretches for s in swings(stretch)]
    fading = [s for stretch in pictures["fading"].stretches for s in swings(stretch)]
    assert growing[-1] > 2 * growing[0]
    assert fading[0] > 2 * fading[-1]


# --- more than one line of music ---------------------------------------------------------------------------------------

BROKEN_LINE = score(
    rf"\gsX g'1{WAVY} s1 \break s1 s1 \gsX g''1\gsLineEnd", layout="line-width = 90\\mm ragged-right = ##f" + UNCUT
)


def test_a_broken_line_goes_on_at_its_height_right_of_the_clef(tmp_path):
    """Two of four bars are over at the break: half of an octave from position -2 to 5, on either side."""
    before, after = compile_svg([BROKEN_LINE], tmp_path)
    ends, begins = before.stretches[-1].middle(True)[-1], after.stretches[0].middle(True)[0]
    assert ends[1] == pytest.approx(0.75, abs=0.2)
    assert begins[1] == pytest.approx(ends[1], abs=0.05)
    assert begins[0] > after.clefs[0].x + 2.6  # the clef is 2.6 staff spaces wide


def test_a_point_that_begins_a_line_of_music_is_reached(tmp_path):
    """There is room for some line between the clef and a head right after it."""
    music = rf"\gsX g'1{WAVY} \break \gsX ef''2 \gsX d''2\gsLineEnd"
    _, after = compile_svg([score(music, layout="line-width = 90\\mm ragged-right = ##f")], tmp_path)
    first = after.stretches[0]
    assert first.nodes[-1][0] < after.accidentals[0].x
    assert first.nodes[-1][0] - first.nodes[0][0] > 0.8


def test_two_voices_have_a_line_each(tmp_path):
    music = (
        rf"<< \new Voice {{ \voiceOne \gsX c''4{WAVY} \gsX f''4 \gsX d''4\gsLineEnd }} "
        rf"\new Voice {{ \voiceTwo e'4{PLAIN} c'4 d'4\gsLineEnd }} >>"
    )
    (picture,) = compile_svg([score(music)], tmp_path)
    upper = [s for s in picture.stretches if s.nodes[0][1] > 0]
    lower = [s for s in picture.stretches if s.nodes[0][1] < 0]
    assert (len(upper), len(lower)) == (2, 2)
    assert misses(picture) == []


def test_words_keep_clear_of_a_line(tmp_path):
    """A text over the middle of a steep line is above it. A letter is at least 0.4 staff spaces wide."""
    music = rf"\gsX g'4{WAVY} s4^\markup \column {{ wherever }} s4 \gsX c''''4\gsLineEnd"
    (picture,) = compile_svg([score(music)], tmp_path)
    (word,) = picture.words
    below = [y for s in picture.stretches for x, y in s.drawn if word.x <= x <= word.x + 0.4 * len("wherever")]
    assert below
    assert word.y > max(below)


def test_a_row_is_one_line(tmp_path):
    """Fingerings are at one height, whatever is above them."""
    music = r"""c''4\gsFingering "F 0" g4\gsFingering "F 1-2" e''4\gsFingering "F 1-2-3" c'4\gsFingering "F 1" """
    (picture,) = compile_svg([score(music)], tmp_path)
    assert len(picture.rows) == 4
    assert len({round(p.y, 3) for p in picture.rows}) == 1


def test_a_bare_head_owes_no_accidental(tmp_path):
    """The sharp that a bare head did not get is printed at the next note, and no natural cancels it."""
    sharp, natural = compile_svg([score(r"\gsBare fs'4 fs'4"), score(r"\gsBare fs'4 f'4")], tmp_path)
    assert len(sharp.accidentals) == 1
    assert len(natural.accidentals) == 0


# --- the measuring must be able to fail ------------------------------------------------------------------------------------

BROKEN = {
    "off its points": (
        "gs:through",
        "(lambda (points straight) (let ((f (old points straight))) (lambda (x) (+ 0.4 (f x)))))",
    ),
    "through the heads": ("gs:obstacles", "(lambda (grob system x0 x1 gap unit) '())"),
    "at the wrong time": (
        "gs:places",
        "(lambda a (map (lambda (p) (cons (+ 1.5 (car p)) (cdr p))) (apply old a)))",
    ),
    "uneven waves": (
        "gs:half-waves",
        "(let ((n 0)) (lambda (l w) (set! n (1+ n)) (* (if (odd? n) 2 1) (old l w))))",
    ),
}


@pytest.mark.parametrize("name", sample((*BROKEN,), 2))
def test_a_broken_stencil_is_found(name, tmp_path):
    function, replacement = BROKEN[name]
    broken = f"#(set! {function} (let ((old {function})) {replacement}))\n"
    music = [CASES["long"].music, CASES["turning"].music]
    printed, whole = (
        compiled[n : n + 2]
        for compiled in [
            compile_svg([score(m, "", RAGGED + how) for how in ("", UNCUT) for m in music], tmp_path, broken)
        ]
        for n in (0, 2)
    )
    found = [w for p in printed for w in misses(p) + uneven(p)]
    found += [w for p in whole for w in off_points(p, wavy=True)]
    assert found != []
