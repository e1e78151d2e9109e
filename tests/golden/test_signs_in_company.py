# ruff: noqa: E501  (a case a line)
"""Brackets, bands, words and lengths in relation to their notes: positions in LilyPond's SVG, in staff spaces."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from golden.geometry import document, run, score
from golden.outlines import KEPT_CLEAR, LINE_WORD, MARKED, OURS, Block, Staff, staves
from sampling import whole

pytestmark = [pytest.mark.lilypond, whole]

_SAY = r"""\gsSay #'(("single tongue" "single tongue" ""))"""
CASES = {
    "length over a mark": r"""c''1\gsMark "1, 2"\gsWord "molto"\gsSpan "growl"\gsSpanEnd\gsLength "2.5 s"\gsLengthEnd""",
    "stopping at a flat": r"g'2\gsLine #'((style . plain)) \afterGrace 63/64 s4 { \gsStops \gsX bf'8\gsLineEnd } r4",
    "stopping at a sharp": r"g'2\gsLine #'((style . plain)) \afterGrace 63/64 s4 { \gsStops \gsX fs''8\gsLineEnd } r4",
    "band": r"\stopStaff \startStaff \gsBare \gsX b'4\gsBand g' f'' \gsBare \gsTriangleUp f''4 \gsBare \gsX c''4 \gsBare \gsTriangleDown g'4\gsBandEnd",
    "hand on notes": r"c''4\gsHandTurn #'(open stopped)\gsHandTurnEnd g'8\gsHandTurn #'(open stopped)\gsHandTurnEnd r8 c''2",
    "slashes without stems": r"\gsStemless c''4*4\gsFlutter \gsStemless g'4*4\gsFlutter \gsStemless c'''4*4\gsFlutter",
    "changes in a chain": r"""c''4\gsTurn "flz." "tone, without any haste" c''4\gsTurnEnd\gsTurn "" "½ valve" c''4\gsTurnEnd r4""",
    "slashes among ledger lines": r"a4\gsFlutter g4\gsFlutter d'''4\gsFlutter a8\gsFlutter r8 c'8\gsFlutter r8 f'''8\gsFlutter r8 g8[\gsFlutter b']\gsFlutter f8[\gsFlutter a]\gsFlutter c'''8[\gsFlutter e''']\gsFlutter",
    "hollow diamonds": r"\gsDiamond c'2 \gsDiamond a1 \gsDiamond c'''4",
    "dots between sharps": r"cs''8[\gsDots #2 fs'' gs''\gsDots #2 as']\gsDots #3 cs'''8\gsDots #2 r8 \stemUp cs''8\gsDots #2 gs'\gsDots #2",
    "a band that ends at brackets": r"\gsX g'2\gsBand g' f''\gsLine #'((style . wavy)) \afterGrace 63/64 s2 { \gsStops \gsX f''8\gsLineEnd\gsBandEnd } \gsX g'1\gsBand g' f''\gsBandEnd",
    "many levels": r"<< { g'1 } { \gsShortHairpin #5 s4\ff\> \gsShortHairpin #5 s4\ppp\< \gsShortHairpin #3 s4\mf\> s4\p } >>",
    "numbers beside stems": r"""\clef bass e2\gsFingering "7" b8\gsFingering "6" r8 g2\gsFingering "4" """,
    "word of a line": r"""e''4\gsLine #'((style . plain) (word . "gliss.")) s2 a'4 \gsStemless e''1*2 b'4\gsLineEnd""",
    "word of a line beyond a short piece": r"""s2 s8 e''8\gsLine #'((style . plain) (word . "gliss.")) \gsStemless c''8*2 \gsStemless g''1*2 f'4\gsLineEnd""",
    "word near the limit of a band": r"""d''4\gsBand g' e''\gsLine #'((style . plain) (word . "gliss.")) s8 s s s s s s s s s s s c''2\gsLineEnd\gsBandEnd""",
    "speeding up": rf"""\gsFeather #RIGHT {{ a'32*48/7[\gsSay #'(("single tongue" "single tongue" "")) a'32*128/21{_SAY} a'32*16/3{_SAY} a'32*32/7{_SAY} a'32*80/21{_SAY} a'32*64/21{_SAY} a'32*16/7]{_SAY} }}""",
}

MARKS = r"""c'4\gsMark "1"\gsFingering "F 1-2"\p a'8\gsMark "12"\gsCents #-14 g'\gsMark "3, 4, 11"\gsWord "molto"\f c''4\gsMark "5"\gsDots #3 r4"""

TRILLS = r"""c''4\gsTrillTo df''\gsMark "1"\gsWord "lip" a'8.\noBeam\gsSecond cs''\gsFingering "F 1" g16\gsSecond bf c'''4.\gsSecond ef''' g'1*5/8~\gsTrillSpanTo af' g'4\gsTrillSpanEnd"""


@pytest.fixture(scope="module")
def trilled(tmp_path_factory) -> tuple[Staff, str]:
    svg = run(document([score(TRILLS, MARKED)]), tmp_path_factory.mktemp("trills"))
    return staves(svg, (*KEPT_CLEAR, *OURS))[0], svg


@pytest.fixture(scope="module")
def marked(tmp_path_factory) -> Staff:
    (staff,) = staves(run(document([score(MARKS, MARKED)]), tmp_path_factory.mktemp("marks")))
    return staff


@pytest.fixture(scope="module")
def svg(tmp_path_factory) -> str:
    bars = r"""\override BarLine.output-attributes = #'((class . "BarLine"))"""
    scores = [score(music, MARKED + bars) for music in CASES.values()]
    return run(document(scores), tmp_path_factory.mktemp("signs"))


@pytest.fixture(scope="module")
def printed(svg) -> dict[str, Staff]:
    return dict(zip(CASES, staves(svg, (*KEPT_CLEAR, *OURS, "gs-band", "BarLine", LINE_WORD)), strict=True))


def blocks(staff: Staff, kind: str) -> list[Block]:
    return sorted((b for b in staff.blocks if b.kind == kind), key=lambda b: b.box)


def marks(staff: Staff) -> list[tuple[Block, Block]]:
    """The outline around each footnote number, and the number."""
    found = blocks(staff, "GestureWords")
    round_one = [(a, b) for a in found for b in found if a is not b and _inside(b.box, a.box)]
    return sorted(round_one, key=lambda pair: pair[0].box)


def _inside(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    return other[0] < one[0] and one[1] < other[1] and other[2] < one[2] and one[3] < other[3]


def test_numbers_of_footnotes_stand_in_a_circle(marked):
    """A bare number above a note means a finger, a slide position or a triplet to a player. At most one mark per place:
    several numbers share one outline. All are equally high; a single digit has a circle."""
    found = marks(marked)
    assert len(found) == 4
    heights = [around.box[3] - around.box[2] for around, _ in found]
    assert max(heights) - min(heights) < 0.05
    assert max(heights) < 2.2  # small: about two staff spaces
    longer = [around.box[1] - around.box[0] - heights[0] for around, _ in found]
    assert (longer[0], longer[3]) == pytest.approx((0, 0), abs=0.05)
    assert 0.1 < longer[1] < 1 < longer[2]


def test_marks_of_footnotes_stand_clear_of_everything(marked):
    circles = {around for around, _ in marks(marked)}
    numbers = {number for _, number in marks(marked)}
    for one in circles:
        left, right, low, high = one.box
        for other in set(marked.blocks) - numbers - {one}:
            x0, x1, y0, y1 = other.box
            assert right < x0 or x1 < left or high < y0 or y1 < low, (one.box, other)


def test_the_second_note_of_a_trill_stands_at_its_height_after_the_first(trilled):
    """In treble clef C5 is half a space above the middle line. The note is clear of heads, dots, flags and accidentals."""
    staff, _ = trilled
    found = blocks(staff, "gs-second")
    ovals = [b.box for b in found if 0.6 < b.box[3] - b.box[2] < 0.9 and b.box[1] - b.box[0] < 1.1]
    assert [round(low + high) / 2 for _, _, low, high in ovals] == [0.5, -3.5, 5]  # C sharp 5, B flat 3, E flat 6
    for one in found:
        left, right, low, high = one.box
        for other in set(staff.blocks) - set(found):
            x0, x1, y0, y1 = other.box
            assert right < x0 or x1 < left or high < y0 or y1 < low, (one.box, other)


def test_words_do_not_touch_the_tempo_above_them(tmp_path):
    music = r"""\gsTempo "" "60" a'2\gsWord "con sord. (straight)" c''2"""
    marked = r"""\override MetronomeMark.output-attributes = #'((class . "MetronomeMark"))"""
    layout = rf"\gsPicture ragged-right = ##t \context {{ \Score {marked} }}"
    svg = run(document([score(music, MARKED, layout)], '\\include "sheet.ily"\n'), tmp_path)
    (staff,) = staves(svg, (*KEPT_CLEAR, "MetronomeMark"))
    assert min(b.box[2] for b in blocks(staff, "MetronomeMark")) > 0.7 + max(
        b.box[3] for b in blocks(staff, "GestureWords")
    )


def test_waves_of_a_trill_are_light(trilled):
    """As thin as a dashed line, half a space high; the waves of the font are a zigzag as heavy as a beam."""
    staff, svg = trilled
    wave = max((b.box for b in blocks(staff, "gs-above")), key=lambda box: box[1] - box[0])
    assert wave[1] - wave[0] > 5
    assert 0.35 < wave[3] - wave[2] < 0.6
    (drawn,) = [path for path in re.findall(r"<path[^>]*>", svg) if path.count("C") > 20]
    assert 0.1 <= float(re.search(r'stroke-width="([\d.]+)"', drawn)[1]) <= 0.16


def test_brackets_are_as_tall_as_the_flat_in_them(printed):
    for name in ("stopping at a flat", "stopping at a sharp"):
        top = max(b.box[3] for b in blocks(printed[name], "gs-bracket"))
        sign = blocks(printed[name], "Accidental")[0]
        assert top >= sign.box[3] - 0.3, name


def test_limits_of_a_band_open_for_what_stands_on_them(printed):
    """The upper limit for the triangle pointing up, the lower for the other; both continue beside them."""
    staff = printed["band"]
    heads = blocks(staff, "NoteHead")
    limits = [b.box for b in blocks(staff, "gs-band") if b.box[3] - b.box[2] < 0.2]
    upper = [b for b in limits if b[2] > 0]
    lower = [b for b in limits if b[3] < 0]
    assert (len(upper), len(lower)) == (2, 2)
    for pieces, head in ((upper, heads[1].box), (lower, heads[3].box)):
        assert pieces[0][1] < head[0] - 0.1
        assert head[1] + 0.1 < pieces[1][0]
        assert pieces[1][0] - pieces[0][1] < head[1] - head[0] + 0.6


def test_attacks_that_speed_up_come_closer_to_the_last(printed):
    """Words repeated only at the beginning of a system take no room elsewhere."""
    at = [b.box[0] for b in blocks(printed["speeding up"], "NoteHead")]
    gaps = [b - a for a, b in pairwise(at)]
    assert len(gaps) == 6
    assert gaps == sorted(gaps, reverse=True)


def test_the_ends_of_a_length_stay_over_the_mark(printed):
    staff = printed["length over a mark"]
    mark = max(b.box[3] for b in blocks(staff, "GestureWords"))
    lengths = [b.box for b in blocks(staff, "gs-above") if b.box[2] > mark]
    assert lengths
    assert min(b[2] for b in lengths) > mark + 1


def test_the_hand_turns_within_its_note(printed):
    """o, arrow and + of a note side by side, all at the same height, before whatever comes next."""
    staff = printed["hand on notes"]
    heads = [b.box for b in blocks(staff, "NoteHead")]
    rest = blocks(staff, "Rest")[0].box
    signs = [b.box for b in blocks(staff, "gs-above")]
    for start, end in ((heads[0][0], heads[1][0]), (heads[1][0], rest[0])):
        mine = [b for b in signs if start - 0.5 < b[0] < end]
        assert max(b[1] for b in mine) < end
        assert max(b[1] for b in mine) - min(b[0] for b in mine) > 2
    middles = {round((b[2] + b[3]) / 2, 1) for b in signs}
    assert len(middles) == 1


def test_a_change_begins_after_the_words_of_the_one_before(printed):
    """Both at the same height, the dashes and goal of the second to the right of the words at its note."""
    staff = printed["changes in a chain"]
    texts = sorted(
        b.box for b in blocks(staff, "gs-above") if b.box[3] - b.box[2] > 0.4 and b.box[1] - b.box[0] > 1
    )
    words = [b for b in texts if abs(b[2] - texts[0][2]) < 0.5]
    assert len(words) == 3, words
    dashes = sorted(b.box for b in blocks(staff, "gs-above") if b.box[3] - b.box[2] < 0.2)
    first, second = (blocks(staff, "NoteHead")[n].box[0] for n in (1, 2))
    after = [b for b in dashes if b[0] > first]
    assert after
    assert after[0][0] > words[1][1]
    assert words[1][1] < second
    assert words[2][0] > after[-1][1] - 0.1


def test_slashes_leave_a_head_without_a_stem_free(printed):
    staff = printed["slashes without stems"]
    heads = [b.box for b in blocks(staff, "NoteHead")]
    slashes = [b.box for b in blocks(staff, "StemTremolo")]
    assert len(slashes) == 9
    for left, right, bottom, top in slashes:
        head = min(heads, key=lambda h: abs(h[0] - left))
        assert bottom > head[3] or top < head[2]
        assert abs(left + right - head[0] - head[1]) < 0.3


def near(one: Block, other: Block, across: float, up: float) -> bool:
    """Whether two boxes are nearer to each other than so much sideways and so much upwards."""
    (a0, a1, b0, b1), (c0, c1, d0, d1) = one.box, other.box
    return a0 - across < c1 and c0 < a1 + across and b0 - up < d1 and d0 < b1 + up


def test_slashes_keep_clear_of_heads_ledger_lines_and_flags(printed):
    """A slash on a ledger line reads as another ledger line, or as two slashes."""
    staff = printed["slashes among ledger lines"]
    slashes = blocks(staff, "StemTremolo")
    assert len(slashes) == 3 * 12
    for kind in ("NoteHead", "LedgerLineSpanner", "Flag"):
        others = blocks(staff, kind)
        assert others, kind
        assert [s.box for s in slashes for o in others if near(s, o, 0, 0.2)] == [], kind


def test_a_hollow_diamond_is_white_inside(svg, printed):
    """The two hollow ones, after (so over) the ledger lines."""
    white = [m.start() for m in re.finditer(r'color="rgba?\(100[.0]*%, 100[.0]*%, 100[.0]*%', svg)]
    assert len(white) == 2
    ledgers = [m.start() for m in re.finditer(r'class="LedgerLineSpanner"', svg)]
    assert any(place < white[0] for place in ledgers)
    assert len(blocks(printed["hollow diamonds"], "LedgerLineSpanner")) >= 4


def test_dots_of_the_tongue_stand_above_sharps(printed):
    staff = printed["dots between sharps"]
    dots, sharps = blocks(staff, "Script"), blocks(staff, "Accidental")
    assert len(dots) == 2 * 5 + 3
    assert len(sharps) >= 6
    assert [d.box for d in dots if d.box[2] < 2.2] == []
    assert [d.box for d in dots for s in sharps if near(d, s, 0.4, 0.1)] == []


def test_a_band_ends_clear_of_brackets_and_bar_lines(printed):
    staff = printed["a band that ends at brackets"]
    bars = sorted(b.box[0] for b in blocks(staff, "BarLine"))
    edges = sorted(b.box[0] for b in blocks(staff, "gs-band") if b.box[1] - b.box[0] < 0.2)
    assert (len(bars), len(edges)) == (2, 4)
    assert edges[1] - max(b.box[1] for b in blocks(staff, "gs-bracket")) > 0.7
    assert bars[0] - edges[1] > 1.2
    assert bars[1] - edges[3] > 1.2


def test_hairpins_between_levels_that_stand_close_are_seen(printed):
    staff = printed["many levels"]
    hairpins = sorted({(b.box[0], b.box[1]) for b in blocks(staff, "Hairpin")})
    levels = [b.box for b in blocks(staff, "DynamicText")]
    assert len({round(left) for left, _ in hairpins}) == 3
    assert min(right - left for left, right in hairpins) > 2
    for left, right in hairpins:
        assert not [b for b in levels if b[0] < right and left < b[1]]


def test_numbers_keep_below_stems_beside_them(printed):
    """Half a space to the side as well: a stem's end that touches a number reads as part of it."""
    staff = printed["numbers beside stems"]
    rows = blocks(staff, "gs-row")
    assert len(rows) == 3
    assert len({r.box[2] for r in rows}) == 1
    assert [r.box for r in rows for k in ("Stem", "Flag") for s in blocks(staff, k) if near(r, s, 0.4, 0.3)] == []


@pytest.mark.parametrize("name", ["word of a line", "word of a line beyond a short piece"])
def test_the_word_of_a_line_stands_once_on_the_first_piece_with_room(name, printed):
    """Never over a bar line: there it would read as a direction for the next bar (our own judgement)."""
    staff = printed[name]
    words = [b.box for b in blocks(staff, LINE_WORD)]
    heads = [b.box for b in blocks(staff, "NoteHead")]
    bars = [b.box for b in blocks(staff, "BarLine")]
    assert bars
    assert len(words) == 1
    left, right, _, _ = words[0]
    assert not [b for b in bars if b[0] < right and left < b[1]]
    piece = 0 if name == "word of a line" else 2
    assert heads[piece][1] < left
    assert right < heads[piece + 1][0]


def test_the_word_of_a_line_is_not_struck_through_by_the_limit_of_a_band(printed):
    """Where the line comes close to the limit, the word is elsewhere on it, or above the limit."""
    staff = printed["word near the limit of a band"]
    (word,) = [b.box for b in blocks(staff, LINE_WORD)]
    heights = [y for b in blocks(staff, "gs-band") for y in b.box[2:]]
    assert heights
    assert not [y for y in heights if word[2] < y < word[3]]


def test_findings_of_two_lines_keep_their_distance(tmp_path):
    """At least as far from the next finding as one of a single line."""
    text = "first note: " + "the nearest pitch any tube gives is far away; " * 12
    column = f'\\markup \\column {{ \\gs-finding "{text}" \\gs-finding "{text}" \\gs-finding "last" }}'
    svg = run(document([column], '\\include "sheet.ily"\n\\include "page.ily"\n'), tmp_path)
    heights = sorted({float(y) for y in re.findall(r"translate\([-\d.]+, ([-\d.]+)\)[^>]*>\s*<text", svg)})
    gaps = [b - a for a, b in pairwise(heights)]
    assert len(gaps) >= 4
    assert gaps[-1] > min(gaps) + 0.5


# Words, levels and a sign over a note belong to what is repeated, and stand in its frame; words on the box itself above.
@pytest.mark.parametrize(
    "inside",
    [
        r"""d''4\gsFrame\gsWord "softly"\p e''4 f''4-.\gsFrameEnd""",
        r"""d''4\gsFrame e''4\ff f''2\gsWord "a word longer than its note"\gsFrameEnd""",
        r"""\gsHeight #-9 d'8\gsFrame\gsMark "1" f'''4->\gsWord "high"\gsFrameEnd""",
    ],
)
def test_what_belongs_to_a_box_stands_in_its_frame(inside, tmp_path):
    music = rf"\cadenzaOn c''4 {inside} s1\gsGoesOn {{text}} s1\gsGoesOnEnd c''1".replace("{text}", '"20 s"')
    music = music.replace(r"\gsFrame", '\\gsFrame\\gsFrameWords "Echo"', 1)
    (staff,) = staves(run(document([score(music, MARKED)]), tmp_path), (*KEPT_CLEAR, *OURS, "gs-frame"))
    frame = [b.box for b in blocks(staff, "gs-frame")]
    title = max(frame, key=lambda box: box[3])
    lines = [box for box in frame if box != title]
    left, right = min(b[0] for b in lines), max(b[1] for b in lines)
    low, high = min(b[2] for b in lines), max(b[3] for b in lines)
    assert title[2] > high
    held = [
        b for kind in ("GestureWords", "DynamicText", "Script", "NoteHead", "Stem") for b in blocks(staff, kind)
    ]
    held = [b for b in held if left <= (b.box[0] + b.box[1]) / 2 <= right]
    assert len(held) > 5
    assert [b.kind for b in held if not _inside(b.box, (left, right, low, high))] == []


def test_words_end_before_the_last_bar_line(tmp_path):
    """In a score it goes on from staff to staff, through the words above the lower one."""
    music = r"c''1 c''1\gsWord" + ' "words longer than their bar" ' + r'\bar "|."'
    marked = r"\override BarLine.output-attributes = #'((class . " + '"BarLine"))'
    layout = rf"ragged-right = ##t \context {{ \Score {marked} }}"
    svg = run(document([score(music, MARKED, layout)]), tmp_path)
    (staff,) = staves(svg, (*KEPT_CLEAR, "BarLine"))
    # Letters are taken as narrower than they are: the room is what is left beyond the text's own width.
    (word,) = blocks(staff, "GestureWords")
    end = max(b.box[1] for b in blocks(staff, "BarLine"))
    loose_one = r"\override GestureWords.X-extent = #ly:grob::stencil-width "
    without = run(document([score(loose_one + music, MARKED, layout)]), tmp_path)
    (plain,) = staves(without, (*KEPT_CLEAR, "BarLine"))
    (loose,) = blocks(plain, "GestureWords")
    assert end - word.box[0] > max(b.box[1] for b in blocks(plain, "BarLine")) - loose.box[0] + 1
