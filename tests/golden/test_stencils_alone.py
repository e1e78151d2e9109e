# ruff: noqa: E501  (music a line)
"""The stencils in somebody else's score: every command is quiet on every LilyPond of the machine, and nothing leaks."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import timing
from golden.geometry import document, run, score
from golden.programs import PROGRAMS
from sampling import sample

from gesturesmith import paths
from gesturesmith.inlining import template

pytestmark = pytest.mark.lilypond

EVERYTHING = [
    r"""\gsX c'4\gsLine #'((style . wavy) (growth . growing) (word . "gliss.")) s2 \gsX fs''4\gsLineEnd
        c'4\gsLine #'((style . plain) (arrow . #t) (word . "gliss.")) s2 c'''4\gsLineEnd""",
    r"""\gsX c''2\gsLine #'((style . broken)) \gsX f'2 \gsX e''4\gsLineEnd\gsLine #'((style . dotted)) \gsX c'2.\gsLineEnd""",
    r"""\gsDiamond c'2 \gsTriangleUp c''4 \gsTriangleDown c'4 \gsSlash c'1 \gsGhost cs'4 \gsGhost <e' g'>8 \gsGhost c'''2 \gsSmall \gsDiamond cs'4 \gsHidden c'4 \gsBare cs'2 \gsEighth #1/8 cs'4 \gsEighth #-1/8 <bf' d''>4
        \gsHeight #-3 \gsX c'1 \gsX c'1""",
    r"""c'4\gsScoop e'\gsPlop fs'\gsRip bf'\gsDoit <c' e'>4.\gsFall c'8\gsBend #-2 cs'4\gsScoop\gsFall d'4""",
    r"""c'4\gsLift e'\gsSmear fs'8\gsShortDoit bf'\gsLongDoit c'4.\gsDoitAtOnce c'8\gsShortFall cs'4\gsLongFall d'4\gsFallAtOnce
        f'4\gsSpill <g' b'>8\gsFlip c'8\gsJazzTurn c''2\gsSmear\gsSpill""",
    r"""c'4\gsPlus e'\gsHalfStopped g'\gsOpen b'\gsTrill c'8\gsDots #2 c'\gsDots #3 c'4\gsFlutter g''8\gsFlutter r8 c'1\gsFlutter \gsTriangleUp c'''4\gsBeyond #UP \gsTriangleDown e8\gsBeyond #DOWN r8 r2""",
    r"""c'2\gsHandTurn #'(stopped open) c'4\gsHandTurnEnd\gsHandTurn #'(open half-stopped) c'\gsHandTurnEnd
        c'2\gsTurn "air" "ord." c'4\gsTurnEnd\gsTurn "" "flz." c'4\gsTurnEnd""",
    r"""c''1~\gsTrillSpan c''1\gsTrillSpanEnd \break c'1~\gsTrillSpan c'2\gsTrillSpanEnd r2 c'1~\gsTrillSpan \break c'1\gsTrillSpanEnd""",
    r"""c''4\gsTrillTo df'' d''\gsTrillTo ef''\gsSecond f'' e'8.\gsSecond gf r16 f'8.\gsSecondPlain g r16 c''''4\gsSecond df'''' c''1~\gsTrillSpanTo ds'' \break c''1\gsTrillSpanEnd""",
    r"""c''1~\gsWaves ##f #'((speed (0 . 0.5) (1 . 2)) (width (0 . 0.5) (0.5 . 0.5) (0.5 . 2) (1 . 2))) \gsSpan "vib." \break c''1\gsSpanEnd
        c'1\gsWaves ##f #'((speed (0 . 2)) (width (0 . 1))) \gsTrillSpanTo d' s1\gsTrillSpanEnd c'2\gsWaves ##t #'((speed (0 . 1) (1 . 2.5)) (width (0 . 1))) \gsSpan "wah-wah" c'2\gsSpanEnd""",
    r"""c'1\gsSpan "growl"\gsSpanEnd c'2\gsSpan "growl" c'\gsSpanEnd c'1\gsLength "2.5 s"\gsLengthEnd""",
    r"""c'4\gsWord "flz."\gsWord "molto"\gsCancel "ord."\gsMark "1, 2" c'\gsCents #-14 c'\gsTuned cs'' #30 c'\gsNote #'("one" "two")
        c'\gsFingering "F 0 / Bb 1" R1 <>\gsWord "con sord." c'1\gsLevel "sffz" """,
    r"""c'4\gsInhale\gsSyllable "f" r2.\gsExhale\gsSyllable "ha \"so\"" <>\gsInhale R1 <c' e'>4\gsSyllable "sh" """,
    r"""c'2\gsSay #'(("flz." "flz." "")) c'2\gsSay #'(("flz." "flz." "") ("ord." "ord." "ord.")) \break \gsPlaysOn
        c'1\gsSay #'(("flz." "flz." ""))\gsPageMark #'(("one" . #t) ("two" . #f)) <>\gsSay #'(("ord." "" "")) R1""",
    r"""\gsNiente c'2\< \gsEndLevel \gsAfterStop c'2\f \gsShortHairpin #4 c'4\p\< c'2.\ff \gsFeather #RIGHT { c'8[ c' c' c'] }
        \afterGrace 63/64 c'2\p { \gsLevelAtEnd s8\f } \gsRestNext r2 \repeat volta 3 { c'1 \gsTimes "3 times" }""",
    r"""\gsX g'4\gsBand g' f'' \gsX b' \clef bass \gsX c' \gsX c'\gsBandEnd \break c'1\gsBand c' d'\gsBandEnd""",
    r"""\gsX g'2.\gsLine #'((style . wavy)) \afterGrace 63/64 g'4 { \gsStops \gsX cs''8\gsLineEnd } \gsStemless c'1""",
    r"""\grace { \gsX c'8\gsLine #'((style . plain)) } \gsX c''4\gsLineEnd r4 r2""",
    r"""\grace { \gsGraceSlash g'16 [ a'16 ] } c''4 \grace { \gsGraceSlash c'''16 [ b''16 a''16 ] } g''4\gsStrokes #16 <c' e'>8\gsStrokes #32 r8
        \gsRatio \tuplet 5/4 { c'16 [ d'16 e'16 f'16 g'16 ] } c''2\gsStrokes #8 \gsRatio \tuplet 7/4 { c'4 r4 g''2.\gsStrokes #8 b'2 }""",
    r"""\slashedGrace { g'8\gsFrame } c''4\gsFrameWords "Echo" df''4 e''4\gsFrameEnd \gsRestNext s4\gsGoesOn "20 s" s2\gsGoesOnEnd c'4 r4
        \gsX c'2\gsFrame\gsLine #'((style . wavy)) fs''2\gsLineEnd\gsFrameEnd s1\gsGoesOn "until “the bell”" \break s1\gsGoesOnEnd c'4\gsFrame\gsFrameEnd r4
        c'2\gsFrame \break c'4\gsInhale\gsFrameEnd r2.""",
    r"""\gsTempo "Calm" "60" << { c'1 e''1 \break g'1 c'1 } \new Voice { s1\gsGradually "accel." ##f s2 s2\gsGraduallyEnd \gsRehearsal "A" \gsTempoOf "" 2 1 "48"
        s1\gsGradually "rit." \markup \gs-tempo "" "40" s2 \gsTempoWords "Slow" s4 s4\gsGraduallyEnd } >>""",
    r"""<< { \gsLower c'2 \gsAlone } \new Voice { \voiceOne g'2 } >> << { \gsUpper c''2 \gsAlone } \new Voice { \voiceTwo g'2 } >>""",
    r"""c'1\gsLine #'((style . wavy)) \break s1\gsSpan "growl" \gsLength "30 s" \break s1\gsSpanEnd\gsLengthEnd c''1\gsLineEnd""",
]  # fmt: skip


@pytest.mark.parametrize("program", sample(PROGRAMS, 2), ids=PROGRAMS.index)
def test_every_command_is_quiet(program, tmp_path):
    staves = [score(music) for music in EVERYTHING]
    staves.append(score(r"\gsHeight #-4 \gsX c'4 \gsTriangleUp \gsHeight #7 c'4", r"\gsThreeLines"))
    staves.append(score("cqs'4 ctqf' bqf'", r"\gsArrows"))
    assert "<svg" in run(document([*staves, r"\markup \gsDraft", r"\gsFootnotes"]), tmp_path, program)


def test_every_command_is_in_that_test():
    """Every new command needs a test that it is quiet."""
    folder = paths.templates() / "stencils"
    defined = set(
        re.findall(r"^(gs[A-Z]\w*) *=", "\n".join(p.read_text("utf-8") for p in folder.glob("*.ily")), re.M)
    )
    used = set(re.findall(r"\\(gs[A-Z]\w*)", Path(__file__).read_text("utf-8")))
    assert defined - used <= {"gsScores", "gsVoices"}


COMPOSER = r"""\version "2.24.0"
\language "deutsch"
\include "gesture.ily"
\include "gesture.ily"
#(set-global-staff-size 14)
\paper { tagline = ##f }
\score {
  << \new Staff { h'4 \transpose c d { \"gesture-beacon2" } b'4 }
     \new Staff { \clef bass c8 d e f g a h c' \clef treble \"gesture-beacon2" } >>
  \layout { } \midi { }
}
"""
GESTURE = r"""\include "gesturesmith.ily"
\gsKeepNoteNames
\language "english"
"gesture-beacon2" = {
  \gsX bqf'4\gsBand g' f''\gsLine #'((style . wavy))\gsWord "½ v."\gsFingering "Bb 0" s2
  \afterGrace 63/64 s4 { \gsStops \gsX fs''8\gsLineEnd\gsBandEnd }
}
\gsRestoreNoteNames
"""


@pytest.mark.parametrize("program", sample(PROGRAMS, 2), ids=PROGRAMS.index)
def test_in_a_score_of_somebody_else(program, tmp_path):
    """Another note-name language, two inclusions, a transposition, another staff size: no warning, one line each."""
    (tmp_path / "gesturesmith.ily").write_text(template("gesturesmith.ily"), "utf-8")
    (tmp_path / "gesture.ily").write_text(GESTURE, "utf-8")
    (tmp_path / "composer.ly").write_text(COMPOSER, "utf-8")
    command = [str(program), "-s", "-dbackend=svg", "composer.ly"]
    done = timing.run(command, cwd=tmp_path, text=True)
    assert (done.returncode, done.stderr) == (0, "")
    assert (tmp_path / "composer.svg").read_text("utf-8").count('class="gs-contour"') == 2


@pytest.mark.parametrize("program", sample(PROGRAMS, 2), ids=PROGRAMS.index)
def test_a_score_without_gestures_stays_as_it_was(program, tmp_path):
    """The same picture with and without our file: no setting of the score changes."""
    music = r"""\score { \new Staff { \time 3/4 c'4-.^"text"\p\< fs'8-> g'16( a' ) r8\! | <c' e'>2.:32\f\trill \glissando
                \clef bass c4 } }"""
    plain = '\\version "2.24.0"\n\\language "english"\n%s\n\\paper { tagline = ##f }\n' + music
    pages = []
    for name, include in (("without", ""), ("with", '\\include "gesturesmith.ily"')):
        (tmp_path / name).mkdir()
        pages.append(run(plain % include, tmp_path / name, program))
    assert pages[0] == pages[1]
