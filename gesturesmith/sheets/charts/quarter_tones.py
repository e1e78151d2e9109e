"""Quarter tones over the range: their fingerings, errors and corrections, and those that are not available."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.diagnostics import Verdict
from gesturesmith.instruments.base import Instrument
from gesturesmith.judge.gesture import judge
from gesturesmith.lytext import LyText
from gesturesmith.model.builder import NewGesture, NewPoint, make
from gesturesmith.model.piece import Settings
from gesturesmith.sheets.charts.base import Chart, Column, explained, rows_of, score
from gesturesmith.units import Spelling, spell_quarter
from gesturesmith.values import frozen
from gesturesmith.wording import said

_BEATS = Fraction(2)
_MAX_NOTES = {"valves": 12, "slide": 10}  # in a row; positions have longer names


@frozen(kw_only=True)
class QuarterTone:
    """A written quarter tone and the checker's answer.

    tube        the fingering, "" if nothing comes close; partial: its harmonic
    error       cents by which it is off before any correction, + is sharp
    correction  "" | "lip" | "hand"
    """

    note: Spelling
    verdict: Verdict
    tube: str
    partial: int
    error: int
    correction: str


def quarter_tones(instrument: Instrument) -> tuple[QuarterTone, ...]:
    """Every written quarter tone between the semitones of the usual range, lowest first."""
    low, high = (int(cents - instrument.sounding.cents) for cents in instrument.usual_range.value)
    notes = [spell_quarter(cents) for cents in range(low - low % 100 + 50, high, 100) if cents > low]
    found = []
    for note in notes:
        gesture, errors = make(NewGesture(instrument=instrument, points=(NewPoint(pitch=note),), lasts=_BEATS))
        if gesture is None:
            raise ValueError([e.message for e in errors])
        judged = judge(gesture)
        played = judged.case.realisation.points[0]
        found.append(
            QuarterTone(
                note=note,
                verdict=judged.verdict,
                tube=played.tube.name if played.tube is not None else "",
                partial=played.partial,
                error=round(played.error_cents),
                correction=played.correction,
            )
        )
    return tuple(found)


def _body(settings: Settings) -> tuple[LyText, ...]:
    instrument = settings.instrument
    columns = [_column(one, settings) for one in quarter_tones(instrument)]
    rows = rows_of(columns, instrument, _MAX_NOTES[instrument.kind])
    widest = max(len(row.columns) for row in rows)
    return (
        explained("quarter-tones", columns, settings),
        *(score(row, widest, layout="gsChartRow") for row in rows),
    )


def _column(one: QuarterTone, settings: Settings) -> Column:
    if one.verdict is Verdict.NOT_AS_WRITTEN or not one.tube:
        return Column(notes=(one.note,), texts=("–",), shut=True)
    below = str(one.partial) if settings.instrument.means == "single" else one.tube
    sign = "+" if one.error > 0 else "−" if one.error < 0 else "±"
    off = f"{sign}{abs(one.error)}"
    correction = said(f"correction-{one.correction}", settings.wording) if one.correction else ""
    return Column(notes=(one.note,), texts=(below, off, correction), black=one.verdict is Verdict.WITH_CARE)


CHART = Chart(key="quarter-tones", body=_body)
