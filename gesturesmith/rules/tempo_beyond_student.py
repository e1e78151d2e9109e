"""The tempo is faster or slower than a student has learnt to play.

Checks  the tempo of gestures and, throughout, of passages, against `tempo` in the profile of a student
Why     a student keeps time within the tempi practised so far; faster, notes that are each in reach come too
        quickly one after another, and slower, the pulse and the breath are lost
Fires
    instrument: "first-year.toml"
    pitches: written
    tempo: 120
    gesture a
      contour: Bb2, D3, F3
      lasts: 3 beats
Passes
    instrument: "first-year.toml"
    pitches: written
    tempo: 80
    gesture a
      contour: Bb2, D3, F3
      lasts: 3 beats
Fix     begin at a tempo of the student's, or change `tempo` in the profile once it is learnt
"""

from collections.abc import Iterator
from fractions import Fraction

from gesturesmith.diagnostics import Number, Severity
from gesturesmith.evidence import PLAYER, Sourced
from gesturesmith.instruments.base import Instrument
from gesturesmith.rules.base import Case, Finding, PassageCase, rule
from gesturesmith.rules.shared.reading import plain
from gesturesmith.source import Span


def _in_passage(passage: PassageCase) -> Iterator[Finding]:
    case = next((c for c in passage.cases if c is not None), None)
    if case is None:
        return
    piece = passage.passage
    tempi = [tempo for one in piece.tempo_map.stretches for tempo in (one.tempo, one.to)]
    spans = piece.spans
    yield from _told(case.instrument, tempi, spans.get("tempo", spans.get("play", piece.span)))


@rule("GS733", "tempo-beyond-student", severity="caution", passage=_in_passage, alone=True)
def check(case: Case) -> Iterator[Finding]:
    if not case.gesture.in_seconds:
        yield from _told(case.instrument, [case.gesture.tempo], case.gesture.span)


def _told(instrument: Instrument, tempi: list[Fraction], span: Span) -> Iterator[Finding]:
    """The fastest tempo, if it is faster than the student's, and the slowest, if it is slower."""
    student = instrument.student
    if student is None or student.tempi is None:
        return
    slow, fast = student.tempi
    evidence = Sourced(
        student.tempi, PLAYER, f"{student.name or 'the profile'}: {slow} to {fast} quarters a minute"
    )
    for tempo, limit, word, severity in (
        (max(tempi), fast, "faster", Severity.CAUTION),
        (min(tempi), slow, "slower", Severity.ADVICE),
    ):
        if (tempo > limit) if word == "faster" else (tempo < limit):
            yield Finding(
                span=span,
                text=f"{plain(float(tempo))} quarters a minute are {word} than this player has learnt, which is "
                f"{slow} to {fast}",
                hint=f"practise it at {limit} first",
                evidence=evidence,
                severity=severity,
                numbers=(Number(name="tempo", value=float(tempo), limit=limit, unit="quarters a minute"),),
            )
