# ruff: noqa: E501  (a case a line)
"""Signs that used to merge with their neighbours: positions in LilyPond's SVG, in staff spaces. The distance needed to read
them at arm's length is our own judgement."""

from __future__ import annotations

import math

import pytest
from golden.geometry import document, run, score
from golden.outlines import KEPT_CLEAR, MARKED, OURS, Block, Staff, staves
from golden.programs import PROGRAMS
from sampling import sample, whole

pytestmark = [pytest.mark.lilypond, whole]

_LINE = r"\gsLine #'((style . plain))"
CASES = {
    "over high notes": r"ef''4\gsPlus e''4\gsHalfStopped f''4\gsOpen g''4\gsTrill a''4\gsTrillTo bf''",
    "levels": r"cs''2.\f bf'4\f d''4\mf c''4\ff b'8\f r8",
    "tenuto": r"a4-- ef'4-- g4--",
    "tenuto in the staff": r"a'4-- c''4--",
    "stops": rf"g'2{_LINE} \afterGrace 63/64 s4 {{ \gsStops ef8\gsLineEnd }} r4 g'2{_LINE} \afterGrace 63/64 s4 {{ \gsStops \gsX e8\gsLineEnd }} r4 g'2{_LINE} \afterGrace 63/64 s4 {{ \gsStops c'''8\gsLineEnd }} r4",
    "trill": r"bf'1*5/8~\gsTrillSpan bf'4\gsTrillSpanEnd",
    "second note": r"a4\gsSecond cs' g4\gsSecond b a''4\gsSecond c'''",
    "length": r"""fs'4\gsMark "1"\gsDots #2 \gsLength "4 beats" fs'4\gsDots #2 r2\gsLengthEnd""",
    "edges of jazz": r"cs''4\gsLift c''4.\gsLongDoit c''4\gsSmear a8\gsLongFall c''4.\gsSpill c''2\gsFlip a8\gsJazzTurn d'''4\gsFallAtOnce",
    "edges": r"cs''4\gsScoop c''4.\gsDoit c''4\gsPlop a4\gsRip c''4.\gsFall c''2\gsBend #-2 a8\gsFall d'''4\gsScoop",
    "slurs": r"c''2.( bf'2) \stemUp aqs'4( \stemNeutral bqs'4 ctqs'' dqf'') d'4( ef' fs')",
    "tie in a band": r"\gsX c'4\gsBand c' a' \gsX e'8~ \gsX e'4\gsBandEnd",
}


@pytest.fixture(scope="module", params=sample(PROGRAMS, 2), ids=str)
def printed(request, tmp_path_factory) -> dict[str, Staff]:
    marked = MARKED + "".join(
        rf"""\override {grob}.output-attributes = #'((class . "{grob}"))""" for grob in ("Tie", "Slur", "BarLine")
    )
    scores = [score(music, marked, r"\gsPicture ragged-right = ##t") for music in CASES.values()]
    svg = run(document(scores, '\\include "sheet.ily"\n'), tmp_path_factory.mktemp("apart"), request.param)
    kinds = (*KEPT_CLEAR, *OURS, "gs-band", "Slur", "Tie")
    return dict(zip(CASES, staves(svg, kinds), strict=True))


def blocks(staff: Staff, *kinds: str) -> list[Block]:
    return sorted((b for b in staff.blocks if b.kind in kinds), key=lambda b: b.box)


def near(one: Block, other: Block, across: float, up: float) -> bool:
    """Whether two boxes are closer than the given distances horizontally and vertically."""
    (a0, a1, b0, b1), (c0, c1, d0, d1) = one.box, other.box
    return a0 - across < c1 and c0 < a1 + across and b0 - up < d1 and d0 < b1 + up


def touching(staff: Staff, one: str, other: str, across: float, up: float) -> list[tuple[Block, Block]]:
    ones, others = blocks(staff, one), blocks(staff, other)
    assert ones
    assert others
    return [(a.box, b.box) for a in ones for b in others if near(a, b, across, up)]


def test_signs_over_high_notes_stand_clear_of_the_heads(printed):
    """A cross half a line from a head looks like part of it."""
    assert touching(printed["over high notes"], "Script", "NoteHead", 0, 0.4) == []


def test_levels_stand_clear_of_stems_above_them(printed):
    """LilyPond lets an f lean past a stem's end, a seventh of a space away: the stem reads as part of the letter."""
    letters, stems = (blocks(printed["levels"], kind) for kind in ("DynamicText", "Stem"))
    assert len(letters) == 7  # mf and ff are two letters each
    between = [math.dist(a, b) for one in letters for a in one.outline for two in stems for b in two.outline]
    assert min(between) > 0.5


def test_edges_keep_off_what_they_bend_away_from(printed):
    """An edge that touches its head reads as part of it; one that touches a ledger line seems to extend it."""
    edges = blocks(printed["edges"], "gs-edge")
    others = blocks(printed["edges"], "NoteHead", "Accidental", "Dots", "LedgerLineSpanner")
    assert (len(edges), len(others) > 8) == (8, True)
    between = [min(math.dist(a, b) for a in e.outline for o in others for b in o.outline) for e in edges]
    assert min(between) > 0.2, between


def test_slurs_keep_off_accidentals(printed):
    """LilyPond lets a slur graze the stem of a flat."""
    slurs, signs = (blocks(printed["slurs"], kind) for kind in ("Slur", "Accidental"))
    assert (len(slurs), len(signs)) == (3, 7)
    between = [math.dist(a, b) for one in slurs for a in one.outline for two in signs for b in two.outline]
    assert min(between) > 0.3


def test_a_tenuto_is_no_ledger_line(printed):
    """Outside the staff it is well away from its head; inside, in the next space."""
    assert touching(printed["tenuto"], "Script", "NoteHead", 0, 0.4) == []
    assert max(b.box[3] for b in blocks(printed["tenuto in the staff"], "Script")) < 2


def test_brackets_do_not_close_over_ledger_lines(printed):
    assert touching(printed["stops"], "gs-bracket", "LedgerLineSpanner", 0.1, 0.1) == []


def test_waves_begin_after_the_letters_of_a_trill(printed):
    letters, wave = (b.box for b in blocks(printed["trill"], "gs-above"))
    assert wave[0] - letters[1] > 0.2


def test_ledger_lines_of_a_second_note_end_before_the_parentheses(printed):
    found = blocks(printed["second note"], "gs-second")
    ledgers = [b for b in found if b.box[3] - b.box[2] < 0.2]
    others = [b for b in found if b.box[3] - b.box[2] > 1]
    assert len(ledgers) >= 2
    assert len(others) >= 6
    assert [(a.box, b.box) for a in ledgers for b in others if near(a, b, 0.1, 0)] == []


def test_parentheses_of_a_second_note_keep_off_the_ledger_lines_before_them(printed):
    staff = printed["second note"]
    opening = [b for b in blocks(staff, "gs-second") if b.box[3] - b.box[2] > 1]
    found = blocks(staff, "LedgerLineSpanner")
    assert len(found) >= 5
    assert [(a.box, b.box) for a in found for b in opening if near(a, b, 0.3, 0)] == []


def test_a_length_stands_over_a_mark_by_itself(printed):
    """As over one with words below it."""
    staff = printed["length"]
    mark = max(b.box[3] for b in blocks(staff, "GestureWords"))
    assert min(b.box[2] for b in blocks(staff, "gs-above")) > mark


def test_the_limit_of_a_band_opens_for_a_tie(printed):
    staff = printed["tie in a band"]
    (tie,) = blocks(staff, "Tie")
    limits = [b for b in blocks(staff, "gs-band") if b.box[3] - b.box[2] < 0.2]
    assert len(limits) >= 3
    assert [b.box for b in limits if near(tie, b, 0.05, 0.1)] == []
