"""Our `.ily` files in a composer's own score: everything in the hardest file of the gallery, some of it included
twice, in a score with another note language and size and other staves; none of the composer's settings may
change."""

from __future__ import annotations

import re
import unicodedata
from pathlib import Path

import pypdf
import pytest
import timing
from golden.programs import PROGRAMS
from sampling import sample, whole

from gesturesmith import writers
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

pytestmark = pytest.mark.lilypond

GESTURES = Path(__file__).parent.parent.parent / "docs" / "gallery" / "together.gesture"

# `snap` records all settings of a voice, its staff and the score: the description of every grob, and every property
# of the contexts. `compare` reports which have changed since, except momentary ones.
SNAP = r"""
#(use-modules (srfi srfi-1))
#(define going-on
  '(busyGrobs currentBarLine currentBarNumber currentChordCause currentCommandColumn currentMusicalColumn
    forbidBreak graceSettings internalBarNumber localAlterations measurePosition measureStartNow rootSystem
    slurMelismaBusy stavesFound whichBar))
#(define (all-settings context)
   (append-map
    (lambda (name)
      (let ((where (ly:context-find context name)))
        (append
         (map (lambda (p) (cons (list name p) (ly:context-property where p '())))
              (lset-difference eq? all-translation-properties going-on))
         (map (lambda (entry) (cons (list name (car entry)) (ly:context-grob-definition where (car entry))))
              all-grob-descriptions))))
    '(Voice Staff Score)))
#(define (same? a b)
   (or (equal? a b)
       (and (list? a) (list? b) (= (length a) (length b)) (every (lambda (part) (member part b)) a))))
#(define before '())
snap = \applyContext #(lambda (context) (set! before (all-settings context)))
compare =
\applyContext
#(lambda (context)
   (for-each (lambda (then now) (if (not (same? (cdr then) (cdr now))) (ly:warning "left behind: ~a" (car then))))
             before (all-settings context)))
"""

# Records what a score prints: the voice and style of each head, whether it has brackets, and the words of our
# signs.
TOLD = r"""
#(define (to grob)  ; the second note of a trill, the note that cents are counted from: (step alteration), or #f
   (let* ((event (event-cause grob)) (pitch (if (ly:stream-event? event) (ly:event-property event 'gs-high #f) #f)))
     (and (ly:pitch? pitch) (list 'to (ly:pitch-notename pitch) (ly:pitch-alteration pitch)))))
#(define (told context)
   (let ((found '()))
     (make-engraver
      (acknowledgers
       ((item-interface engraver grob source)
        (set! found (acons grob (ly:context-name (ly:translator-context source)) found)))
       ((spanner-interface engraver grob source)
        (set! found (acons grob (ly:context-name (ly:translator-context source)) found))))
      ((finalize engraver)
       (for-each
        (lambda (p)
          (let* ((grob (car p)) (details (ly:grob-property grob 'details '())) (line (gs:get details 'lines '()))
                 (mark (gs:get details 'mark #f)))
            (ly:warning "told: ~a" (list (grob::name grob) (cdr p) (ly:grob-property grob 'style)
                                         (and (gs:get details 'gs-bracket #f) 'bracketed)
                                         (and mark (cons 'marked (gs:get mark 'text #f)))
                                         (to grob)
                                         line))))
        (reverse found))))))
"""

COMPOSER = (
    r"""\version "2.24.0"
\language "deutsch"
%(includes)s
%(again)s
#(set-global-staff-size 14)
\paper { tagline = ##f }
"""
    + SNAP
    + r"""
own = { h'4 b' es'' fis' }  %% German names, after all that was included
first = \own second = \own third = \own last = \own  %% names a composer may well give
\score {
  <<
    \new Staff \with { instrumentName = "Hn." } {
      \key es \major \cadenzaOn \voiceOne \own \snap %(gestures)s %(spoilt)s \compare
    }
    \new Staff \with { \magnifyStaff #2/3 } { \clef bass \cadenzaOn c4 d e f %(transposed)s }
    \new PianoStaff << \new Staff { c''1 } \new Staff { \clef bass << { e1 } \\ { c1 } >> } >>
  >>
  \layout { }
  \midi { }
}
"""
)


@pytest.fixture(scope="module")
def delivered(tmp_path_factory) -> tuple[Path, list[str]]:
    """A folder with the `.ily` files of all gestures, as delivered, and their names."""
    source = Source(GESTURES.name, GESTURES.read_text("utf-8"))
    items = compile_text(source, Options(formats=("ily",))).items
    folder = tmp_path_factory.mktemp("delivered")
    for output in writers.get("ily").outputs(items, {}):
        (folder / output.place.name).write_bytes(output.data)
    names = sorted(p.stem for p in folder.glob("*.ily") if p.stem != "gesturesmith")
    return folder, names


def _engraved(
    folder: Path, program: Path, names: list[str], played: list[str], spoilt: str = ""
) -> tuple[int, str]:
    """LilyPond's status and messages for the composer's score. `spoilt` goes between the two snapshots."""
    text = COMPOSER % {
        "includes": "\n".join(f'\\include "{n}.ily"' for n in names),
        "again": "\n".join(f'\\include "{n}.ily"' for n in names[:3]),
        "gestures": "\n".join(f'\\"gesture-{n}" \\bar "|" h\'4' for n in played),
        "transposed": "\n".join(
            f'\\clef treble \\transpose c d {{ \\"gesture-{n}" }} \\bar "|" b4' for n in played
        ),
        "spoilt": spoilt,
    }
    (folder / "composer.ly").write_text(text, "utf-8")
    command = [str(program), "--loglevel=WARNING", "--ps", "composer.ly"]
    done = timing.run(command, cwd=folder, text=True)
    return done.returncode, done.stderr


@whole
@pytest.mark.parametrize("program", sample(PROGRAMS, 2), ids=PROGRAMS.index)
def test_everything_in_a_score_of_somebody_else(program, delivered):
    """No warning: neither from LilyPond nor about a setting that a gesture left behind."""
    folder, names = delivered
    # Passages are barred, and this score is not.
    played = [n for n in names if "It is written for" not in (folder / f"{n}.ily").read_text("utf-8")]
    assert len(played) > 20
    if program != PROGRAMS[0]:  # a few are enough here: the gallery's test shows that all are quiet
        names = played = played[::3]
    assert _engraved(folder, program, names, played) == (0, "")


def test_what_is_left_behind_is_found(delivered):
    folder, names = delivered
    spoilt = r"\override NoteHead.style = #'cross \set Staff.harmonicAccidentals = ##f \omit Score.BarNumber"
    status, messages = _engraved(folder, PROGRAMS[0], names[:1], names[:1], spoilt)
    assert status == 0
    found = [line.partition("left behind: ")[2] for line in messages.splitlines() if line]
    assert {"(Voice NoteHead)", "(Staff harmonicAccidentals)", "(Score BarNumber)"} <= set(found)


CALLS = """instrument: horn
pitches: written
gesture half
  technique: half-valve
  contour: xG4 ~~ xD5@2 ~~ xB4@3 ~~ xF5@4
  lasts: 4 beats
  dynamics: p < f@3 > p
gesture growled
  technique: growl
  contour: C5, D5@2 -- E5
  lasts: 4 beats
gesture torn
  technique: half-valve + rip
  contour: xC5
  lasts: 4 beats
  note: "Not \\"too\\" \\\\ loud."
gesture tuned
  contour: C5+48c
  lasts: 2 beats
gesture trilled
  technique: valve-trill
  contour: C5
  lasts: 2 beats
gesture shaken
  technique: shake
  contour: G5
  lasts: 4 beats
gesture sung
  technique: multiphonic
  contour: C4, D4
  sing: G4 ~~ A4
  lasts: 4 beats
"""
SECOND = r'\"gesture-tuned" \"gesture-trilled" \"gesture-shaken"'
SUNG = r'\"gesture-sung"'
PLAYED = r'\"gesture-half" \"gesture-growled"'
# Bars in a staff of a composer's score, by what they show.
STAVES = {
    "cue": r'R1 \cueDuring "hn" #UP { R1 R1 R1 }',
    "unison": rf"\partCombine {{ {PLAYED} g'1 }} {{ {PLAYED} g'1 }}",
    "solo": rf"\partCombine {{ {PLAYED} g'1 }} {{ R1 R1 g'1 }}",
    "sung": rf"g'1 {SUNG} g'",
    "transposed": rf"\transpose c des {{ {SECOND} }}",
    "beside": rf"<< {{ \transpose c d {{ {PLAYED} }} d'1 }} \\ {{ c'1 c' c' }} >>",
}
# One run for all of them, each in a separate book, as in a separate score.
SCORES = r"""\version "2.24.0"
\include "half.ily" \include "growled.ily" \include "sung.ily"
\include "tuned.ily" \include "trilled.ily" \include "shaken.ily"
%s
\addQuote "hn" { g'1 \"gesture-half" \"gesture-growled" \"gesture-sung" }
\layout { \context { \Score \consists #told } }
"""
SCORE = r"""
#(ly:warning "staff: %s")
\book { \bookOutputName "%s" \score { \new Staff { %s } } }
"""


@pytest.fixture(scope="module")
def calls(tmp_path_factory) -> Path:
    """A folder with the `.ily` files of CALLS."""
    folder = tmp_path_factory.mktemp("calls")
    items = compile_text(Source("calls.gesture", CALLS), Options(formats=("ily",))).items
    for output in writers.get("ily").outputs(items, {}):
        (folder / output.place.name).write_bytes(output.data)
    return folder


@pytest.fixture(scope="module", params=sample(PROGRAMS, 2), ids=PROGRAMS.index)
def told(request, calls) -> dict[str, list[str]]:
    """What is printed in each of STAVES, in order; any other message from LilyPond is a failure."""
    text = SCORES % TOLD + "".join(SCORE % (name, name, staff) for name, staff in STAVES.items())
    (calls / "score.ly").write_text(text, "utf-8")
    command = [str(request.param), "--loglevel=WARNING", "--ps", "score.ly"]
    done = timing.run(command, cwd=calls, text=True)
    lines = [line for line in done.stderr.splitlines() if line]
    others = [line for line in lines if "told: " not in line and "staff: " not in line]
    assert (done.returncode, others) == (0, [])
    found: dict[str, list[str]] = {}
    for line in lines:
        if "staff: " in line:
            now = found[line.partition("staff: ")[2]] = []
        else:
            now.append(line.partition("told: ")[2])
    return found


def _heads(told: list[str]) -> list[str]:
    """Those that are printed: what a combined part doubles goes into a voice of LilyPond's for nothing."""
    return [line for line in told if line.startswith("(NoteHead ") and "NullVoice" not in line]


def _words(told: list[str]) -> list[str]:
    return [line for line in told if line.startswith(("(GestureWords ", "(GestureAbove "))]


def _expected(voice: str) -> list[str]:
    """Style and brackets of the heads of PLAYED."""
    looks = ["cross #f"] * 3 + ["cross bracketed"] + ["() #f"] * 2 + ["() bracketed"]
    return [f"(NoteHead {voice} {look} #f #f ())" for look in looks]


class TestCuesAndCombinedParts:
    """Music that LilyPond moves from one voice to another: the generated text must not name a voice."""

    def test_a_cue_shows_the_notes_and_their_words(self, told):
        """As the player of the part sees them, except footnote marks, which are in the part."""
        here = told["cue"]
        played = ["(NoteHead CueVoice () #f #f #f ())"] * 2  # of the sung gesture, since a cue has one voice
        assert _heads(here) == [*_expected("CueVoice"), *played]
        assert sum("½ valve" in line for line in _words(here)) >= 1
        assert sum(line.startswith("(GestureAbove CueVoice") for line in here) == 1
        assert sum(line.startswith("(GestureContour CueVoice") for line in here) == 2
        assert not any("marked" in line for line in here)

    def test_parts_in_unison_have_single_heads_and_words(self, told):
        here = told["unison"]
        assert _heads(here) == [*_expected("Voice"), "(NoteHead Voice () #f #f #f ())"]
        assert sum("marked" in line for line in here) == 2
        assert sum(line.startswith("(GestureAbove ") for line in here) == 1

    def test_a_solo_part_keeps_all_of_its_heads(self, told):
        assert len(_heads(told["solo"])) == 8

    def test_a_sung_line_has_a_voice_of_its_own(self, told):
        looks = [line.split()[2] for line in _heads(told["sung"])]
        assert looks == ["()", "()", "harmonic-mixed", "()", "harmonic-mixed", "()"]

    def test_notes_that_signs_speak_of_are_transposed_with_the_music(self, told):
        """Cents from C, a trill to D, a shake to A: a semitone higher from D flat, to E flat, to B flat."""
        those = ("(GestureRowText ", "(Script ", "(GestureSecond ")
        signs = [line for line in told["transposed"] if line.startswith(those)]
        assert [line.partition("(to ")[2][:6] for line in signs if "(to " in line] == ["1 -1/2", "2 -1/2", "6 -1/2"]

    def test_transposed_and_beside_other_voices(self, told):
        assert len(_heads(told["beside"])) == 7 + 1 + 3


NUMBERED = r"""\version "2.24.0"
\include "half.ily" \include "growled.ily" \include "torn.ily"
%s
upper = { \"gesture-half" \"gesture-growled" R1 }
lower = { R1 \"gesture-torn" \"gesture-growled" }
\layout { \context { \Score \consists #told } }
\book { \bookOutputName "score"
  \score { << \new Staff \upper \new Staff \lower >> }
  \score { \new Staff { \"gesture-torn" } }
  \gsFootnotes
}
\book { \bookOutputName "part" \score { \new Staff \lower } \gsFootnotes }
"""


@pytest.mark.parametrize("program", sample(PROGRAMS, 2), ids=PROGRAMS.index)
def test_footnotes_are_numbered_through_the_score(program, calls):
    """In order of time, then of staves, across several files and movements, each text once; a part is numbered
    separately."""
    (calls / "numbered.ly").write_text(NUMBERED % TOLD, "utf-8")
    command = [str(program), "--loglevel=WARNING", "--pdf", "numbered.ly"]
    done = timing.run(command, cwd=calls, text=True)
    assert done.returncode == 0
    assert re.findall(r"\(marked \. ([^)]*)\)", done.stderr) == [
        *["1", "2", "1, 3", "2"],  # both staves: half valve, growl; half valve and rip, growl again
        *["1, 3"],  # the next movement
        *["1, 2", "3"],  # the part
    ]
    half, growl, rip = "Press the valves", "Growl with the voice", 'Not "too" \\ loud.'
    for name, listed in (("score", [half, growl, rip]), ("part", [half, rip, growl])):
        page = pypdf.PdfReader(calls / f"{name}.pdf").pages[0].extract_text()
        page = re.sub(r"\s+", " ", unicodedata.normalize("NFKC", page))
        places = [page.index(text) for text in listed]
        assert places == sorted(places)
        assert all(page.count(text) == 1 for text in listed)
