"""Our `.ily` files in a composer's own score: all of the hardest file of the gallery, some of it included twice, in
a score of another language and size, with other staves; nothing of the composer's own is changed by it."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
from golden.programs import PROGRAMS

from gesturesmith import writers
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

pytestmark = pytest.mark.lilypond

GESTURES = Path(__file__).parent.parent.parent / "docs" / "gallery" / "together.gesture"

# `snap` notes all settings of a voice, its staff and the score: every grob as it is described there, and every
# property of the contexts. `compare` says which of them have changed since, but for what belongs to a moment.
SNAP = r"""
#(use-modules (srfi srfi-1))
#(define going-on
  '(busyGrobs currentBarLine currentBarNumber currentChordCause currentCommandColumn currentMusicalColumn
    forbidBreak graceSettings internalBarNumber localAlterations measurePosition measureStartNow rootSystem
    stavesFound whichBar))
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
\score {
  <<
    \new Staff \with { instrumentName = "Hn." } {
      \key es \major \cadenzaOn \own \snap %(gestures)s %(spoilt)s \compare
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
    """A folder with the `.ily` file of every gesture, as delivered, and their names."""
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
    """Status and messages of LilyPond with the composer's score. `spoilt` is put between the two snapshots."""
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
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, timeout=120)
    return done.returncode, done.stderr


@pytest.mark.parametrize("program", PROGRAMS, ids=[str(n) for n in range(len(PROGRAMS))])
def test_everything_in_a_score_of_somebody_else(program, delivered):
    """No warning: neither of LilyPond's own, nor of a setting that a gesture has left behind."""
    folder, names = delivered
    # Passages are barred, and this score is not.
    played = [n for n in names if "It is written for" not in (folder / f"{n}.ily").read_text("utf-8")]
    assert len(played) > 20
    if program != PROGRAMS[0]:  # some are enough there: that all are quiet, the gallery's own test says
        names = played = played[::3]
    assert _engraved(folder, program, names, played) == (0, "")


def test_what_is_left_behind_is_found(delivered):
    folder, names = delivered
    spoilt = r"\override NoteHead.style = #'cross \set Staff.harmonicAccidentals = ##f \omit Score.BarNumber"
    status, messages = _engraved(folder, PROGRAMS[0], names[:1], names[:1], spoilt)
    assert status == 0
    found = [line.partition("left behind: ")[2] for line in messages.splitlines() if line]
    assert {"(Voice NoteHead)", "(Staff harmonicAccidentals)", "(Score BarNumber)"} <= set(found)
