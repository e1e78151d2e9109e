"""What LilyPond prints, recorded by an engraver of the tests: note heads with the accidentals before them, bar
lines and tempo marks, each at its moment."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import timing

from gesturesmith import paths

_WATCHER = r"""
#(define (printed:say context kind . rest)
   (format (current-output-port) "~a ~a~{ ~a~}\n" kind
     (ly:moment-main (ly:context-current-moment context)) rest))
#(define (printed:watcher context)
   (let ((heads '()) (bars '()))
     (make-engraver
       (acknowledgers
         ((note-head-interface engraver grob source) (set! heads (cons grob heads)))
         ((bar-line-interface engraver grob source) (set! bars (cons grob bars))))
       ((stop-translation-timestep engraver)
        (for-each
          (lambda (bar) (if (grob::is-live? bar) (printed:say context "bar")))
          bars)
        (for-each
          (lambda (head)
            (let* ((event (ly:grob-property head 'cause))
                   (pitch (ly:event-property event 'pitch))
                   (accidental (ly:grob-object head 'accidental-grob)))
              (printed:say context "note" (ly:pitch-steps pitch) (ly:pitch-alteration pitch)
                (if (ly:grob? accidental) (ly:grob-property accidental 'alteration) "-"))))
          heads)
        (set! heads '())
        (set! bars '())))))
"""


@dataclass(frozen=True)
class Printed:
    """A note head: staff steps from middle C, its alteration, and the accidental before it, if any."""

    at: Fraction
    steps: int
    alter: Fraction
    sign: Fraction | None


def scores(document: str, folder: Path, program: Path) -> list[list[list[Printed]]]:
    """Every score of a document as measures, each with the heads between two bar lines."""
    watched, count = re.subn(
        r"(\\layout \{ \\gs\w+)(.*?\})",
        r"\1 \\context { \\Staff \\consists #printed:watcher }\2",
        document.replace("\\book", _WATCHER + "\\book", 1),
    )
    assert count, "no layout to watch"
    folder.mkdir(exist_ok=True, parents=True)
    (folder / "printed.ly").write_text(watched, "utf-8")
    command = [str(program), "-l", "WARN", "-I", str(paths.templates()), "-dno-print-pages", "printed.ly"]
    done = timing.run(command, cwd=folder, text=True)
    assert (done.returncode, done.stderr) == (0, "")
    return _parsed(done.stdout)


def _parsed(text: str) -> list[list[list[Printed]]]:
    made: list[list[list[Printed]]] = []
    last: Fraction | None = None
    for line in text.splitlines():
        kind, at, *rest = line.split()
        when = Fraction(at)
        if last is None or when < last:
            made.append([[]])
        last = when
        if kind == "bar":
            made[-1].append([])
        else:
            steps, alter, sign = rest
            made[-1][-1].append(Printed(when, int(steps), Fraction(alter), None if sign == "-" else Fraction(sign)))
    return made


def misread(score: list[list[Printed]]) -> list[Printed]:
    """The notes that a player would misread. An accidental applies up to the bar line, to its own line or space
    only (Gould, Behind Bars, 2011, "Accidentals"); there are no key signatures."""
    wrong = []
    for measure in score:
        holds: dict[int, Fraction] = {}
        for head in measure:
            if head.sign is not None:
                holds[head.steps] = head.sign
            if holds.get(head.steps, Fraction(0)) != head.alter:
                wrong.append(head)
    return wrong
