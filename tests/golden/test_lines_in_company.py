# ruff: noqa: E501  (a case a line)
"""A contour line among everything else that can be printed: it keeps clear of it all, in any voice, staff, system or page.
Distances are from the middle of the line to the outlines in LilyPond's SVG."""

from __future__ import annotations

from itertools import pairwise

import pytest
from golden.geometry import document, run, score
from golden.outlines import KEPT_CLEAR, LINE_WORD, MARKED, near_misses, staves
from sampling import sample

pytestmark = pytest.mark.lilypond

WAVE = r"\gsLine #'((style . wavy)) "
LINE = r"\gsLine #'((style . plain)) "
DASH = r"\gsLine #'((style . broken)) "
DOTS = r"\gsLine #'((style . dotted)) "
# The line is 0.16 staff space thick: with 0.2 from its middle to an outline there is white paper between them, also
# where the crest of a wave swings towards it.
GAP = 0.2

CASES = {
    "rests": rf"\gsX g'4{WAVE} \gsX d''4\gsLineEnd r4 \gsX f''8{DASH} r8 r16 \gsX c'16\gsLineEnd r8",
    "flags": rf"\autoBeamOff \gsX c'16{LINE} \gsX c'''16\gsLineEnd \gsX c'''8{WAVE} \gsX c'8\gsLineEnd \gsX g'8{WAVE} \gsX d''8 \gsX f''16 \gsX c''16 \gsX e''32{LINE} \gsX g'32\gsLineEnd",
    "beams": rf"\gsX c'8[{WAVE} \gsX a''16 \gsX f'] \gsX e''16[ \gsX c'' \gsX g' \gsX b'\gsLineEnd] c''8[{LINE} e'' a' f'']\gsLineEnd c'8[{LINE} c''' c' c''']\gsLineEnd",
    "ledger lines": rf"\gsX a4{WAVE} \gsX e'''4 \gsX c'4 \gsX a''4\gsLineEnd c'4{LINE} c'''4 f4\gsLineEnd",
    "accidentals": rf"\gsX gff'4{WAVE} \gsX css''4 \gsX btqf'4 \gsX ctqs''?4\gsLineEnd cs'4{LINE} bff'4 fss''4\gsLineEnd",
    "dots": rf"\gsX g'4..{WAVE} \gsX d''4. \gsX b'8..\gsLineEnd f''2.{LINE} c''4.\gsLineEnd",
    "chords": rf"<c' e'>4{WAVE} <g' bf'>4 <e' cs''>4\gsLineEnd <c' d'>4{LINE} <e'' fs''>4\gsLineEnd",
    "scripts": rf"\gsX c''4\gsPlus{WAVE} \gsX e''4-> \gsX c'4--\p \gsX a''4-.\f\gsLineEnd g'4\gsFlutter{LINE} e''4\gsFlutter\gsLineEnd",
    "words": rf"""\gsX c'4\gsWord "lazily"{WAVE} \gsX a''4 \gsX c''''4^"text"\gsLineEnd c'''4{LINE} c'4\gsLineEnd\gsMark "1" """,
    "dynamics": rf"\gsX g'4\ff{WAVE} \gsX c'4\< \gsX g4 \gsX d''4\sfz\gsLineEnd c'4\p\<{LINE} f4\gsLineEnd\!",
    "edges": rf"\gsX g'4\gsScoop{WAVE} \gsX d''4\gsLineEnd\gsFall g'4\gsRip{LINE} fs''4\gsLineEnd\gsDoit b'4\gsPlop{DASH} e'4\gsLineEnd\gsBend #-2 \gsX g'4{WAVE} \gsX fs''4\gsRip\gsLineEnd",
    "seconds": rf"d''2\gsSecond f''{WAVE} e''4\gsLineEnd\gsSecond g'' c''2\gsSecond d''{LINE} fs''4\gsLineEnd a''4.\gsSecond c'''{DASH} g''8\gsLineEnd",
    "rows": rf"""\gsX c'4\gsFingering "F 1-2"{WAVE} \gsX g4 \gsX e'''4\gsCents #-14 \gsX c''4\gsLineEnd""",
    "spans": rf"""\gsX g'4\gsSpan "growl"{WAVE} \gsX e'''4 \gsX c''4\gsLineEnd\gsSpanEnd c''4\gsHandTurn #'(stopped open){LINE} g'''4\gsLineEnd\gsHandTurnEnd""",
    "stops": rf"\gsX g'2{WAVE} \afterGrace 63/64 s4 {{ \gsStops \gsX fs''8\gsLineEnd }} bf''4 g'2{DOTS} \afterGrace 63/64 s4 {{ \gsStops \gsX gqs'8\gsLineEnd }} r4",
    "a clef on the way": rf"\clef bass \gsX d4{WAVE} \clef tenor \gsX c'4 \clef treble \gsX g'4 \gsX d''4\gsLineEnd",
    "slurs": rf"\gsX g'4{WAVE} \gsX d''4\gsLineEnd( c''4) e''4{LINE} c'4\gsLineEnd",
    "two voices": rf"<< \new Voice {{ \voiceOne \gsX c''4.{WAVE} \gsX f''8 \gsX d''4 \gsX b''4\gsLineEnd }} \new Voice {{ \voiceTwo e'4{LINE} c'4 cs'4 g4\gsLineEnd }} >>",
    "two voices, crossing": rf"<< \new Voice {{ \voiceOne \gsX e'4{WAVE} \gsX f''4 r4 d''4 }} \new Voice {{ \voiceTwo c''4{DASH} c'4\gsLineEnd r4 g4 }} >>".replace(r"\gsX f''4 r4", r"\gsX f''4\gsLineEnd r4"),
}  # fmt: skip


@pytest.fixture(scope="module")
def compiled(tmp_path_factory):
    scores = [score(music, MARKED) for music in CASES.values()]
    return dict(zip(CASES, staves(run(document(scores), tmp_path_factory.mktemp("company"))), strict=True))


@pytest.mark.parametrize("name", CASES)
def test_a_line_comes_near_to_nothing(compiled, name):
    assert len(compiled[name].lines) >= 2
    assert near_misses(compiled[name], GAP) == []


def test_all_that_is_kept_clear_of_is_there(compiled):
    """A kind that is in no case would never be tested."""
    there = {block.kind for staff in compiled.values() for block in staff.blocks}
    assert set(KEPT_CLEAR) - there == set()
    assert {"gs-bracket", "gs-edge", "gs-second", "gs-above", "gs-row"} <= there


@pytest.mark.parametrize("music", [
    rf"\gsX g'2.{WAVE} \gsX d''4\gsLineEnd",
    rf"b'2.{LINE} c''4\gsLineEnd",
    rf"<< \new Voice {{ \voiceOne \gsDiamond d'1.{LINE} e'4\gsLineEnd }} \new Voice {{ \voiceTwo g1. r4 }} >>",
])  # fmt: skip
def test_a_line_begins_after_the_dot(music, tmp_path):
    """No part of it before the dot, even if another voice's wider head moves the dot away, and a wider gap than elsewhere
    after it: otherwise the dot would read as the beginning of the line (our own judgement)."""
    (staff,) = staves(run(document([score(rf"\time 7/4 {music}", MARKED)]), tmp_path))
    dots = [b.box for b in staff.blocks if b.kind == "Dots"]
    assert dots
    assert min(x for line in staff.lines for x, _ in line) > max(b[1] for b in dots) + 0.4


# --- over systems and pages ---------------------------------------------------------------------------------------------

PAGES = rf"""\gsX g'1{WAVE} s1 \break s1 \pageBreak s1 s1 \break \gsX g''1 \gsX bf'1\gsLineEnd"""


def test_a_line_goes_on_over_systems_and_pages(tmp_path):
    """The line covers nine tenths of the space between the clef and the end of a system, at the height for its time:
    5 of 5 bars from position -2 to 5."""
    layout = (
        r"line-width = 90\mm ragged-right = ##f \context { \Voice \override GestureContour.details.uncut = ##t }"
    )
    text = document([score(PAGES, MARKED, layout)])
    run(text, tmp_path, pages=True)
    systems = [s for page in sorted(tmp_path.glob("cases-*.svg")) for s in staves(page.read_text("utf-8"))]
    assert [len(s.lines) for s in systems] == [1, 1, 1, 1]
    heights = [(s.lines[0][0][1], s.lines[0][-1][1]) for s in systems]
    for (_, before), (after, _) in pairwise(heights):
        assert after == pytest.approx(before, abs=0.1)
    rising = [h for pair in heights[:3] for h in pair]
    assert rising == sorted(rising)
    assert rising[0] == pytest.approx(-1.0, abs=0.05)
    for system in systems[1:]:
        (clef,) = [b for b in system.blocks if b.kind == "Clef"]
        assert system.lines[0][0][0] > clef.box[1]


def test_the_word_of_a_broken_line_waits_for_room(tmp_path):
    """Too little of the line is on the first system: the word is on the second, and not repeated on the third."""
    word = r"""r2.. e''8\gsLine #'((style . plain) (word . "gliss.")) \break s1 \break s1 a'4\gsLineEnd"""
    systems = staves(
        run(document([score(word, MARKED, r"line-width = 60\mm ragged-right = ##t")]), tmp_path), (LINE_WORD,)
    )
    assert [len(s.blocks) for s in systems] == [0, 1, 0]
    assert all(s.lines for s in systems)


# --- the measuring must be able to fail ------------------------------------------------------------------------------------

HEADS_ONLY = "(lambda (grob system gap unit column) (append-map (lambda (h) (gs:head-obstacles grob system gap unit h)) (gs:list column 'note-heads)))"
# What a line would hit if its stencil ignored it: what is ignored, in which cases, and what is then hit.
FORGOTTEN = {
    "stems, flags and rests": ("gs:column-obstacles", HEADS_ONLY, ("rests", "flags"), {"Stem", "Rest", "Flag"}),
    "beams": ("gs:beam-obstacles", "(lambda a '())", ("beams",), {"Beam"}),
    "signs in columns of their own": ("gs:other-obstacles", "'()", ("edges", "seconds", "stops", "a clef on the way"), {"Clef", "gs-bracket", "gs-edge", "gs-second"}),
    "heads, accidentals, dots and ledger lines": ("gs:head-obstacles", "(lambda a '())", ("accidentals", "dots", "ledger lines"), {"NoteHead", "Accidental", "Dots", "LedgerLineSpanner"}),
}  # fmt: skip


@pytest.mark.parametrize("name", sample((*FORGOTTEN,), 2))
def test_what_a_stencil_forgets_is_found(name, tmp_path):
    function, replacement, cases, expected = FORGOTTEN[name]
    text = document([score(CASES[n], MARKED) for n in cases], f"#(set! {function} {replacement})\n")
    hit = {kind for staff in staves(run(text, tmp_path)) for kind, _, _ in near_misses(staff, GAP)}
    assert expected <= {"NoteHead" if kind == "gs-point" else kind for kind in hit}
