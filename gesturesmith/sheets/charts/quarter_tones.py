"""Quarter tones over the range: their fingerings, errors and corrections, and those that are not available."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from gesturesmith.diagnostics import Verdict
from gesturesmith.exercises.probes import alone
from gesturesmith.instruments.base import Instrument, Tube
from gesturesmith.lytext import LyText
from gesturesmith.model.piece import Settings
from gesturesmith.realise.ways import in_tune_cents, ways
from gesturesmith.sheets.charts.base import Chart, Column, Row, corrected, explained, filling, rows_of, score
from gesturesmith.units import Spelling, spell_quarter
from gesturesmith.values import frozen

_OTHERS = 2  # per note
_MAX_NOTES = 9  # in a row


@frozen(kw_only=True)
class QuarterTone:
    """A written quarter tone and the checker's answer.

    tube        the fingering, "" if nothing comes close; partial: its harmonic
    error       cents by which it is off before any correction, + is sharp
    correction  "" | "lip" | "hand" | "slide"
    others      other fingerings that give it in tune
    """

    note: Spelling
    verdict: Verdict
    tube: str
    partial: int
    error: int
    correction: str
    others: tuple[str, ...]


def quarter_tones(instrument: Instrument) -> tuple[QuarterTone, ...]:
    """Every written quarter tone between the semitones of the usual range, lowest first."""
    low, high = (int(cents - instrument.sounding.cents) for cents in instrument.usual_range.value)
    notes = [spell_quarter(cents) for cents in range(low - low % 100 + 50, high, 100) if cents > low]
    found = []
    for note in notes:
        judged = alone(instrument, note)
        played = judged.case.realisation.points[0]
        found.append(
            QuarterTone(
                note=note,
                verdict=judged.verdict,
                tube=played.tube.name if played.tube is not None else "",
                partial=played.partial,
                error=round(played.error_cents),
                correction=played.correction,
                others=_others(instrument, note, played.tube),
            )
        )
    return tuple(found)


def _others(instrument: Instrument, note: Spelling, usual: Tube | None) -> tuple[str, ...]:
    if usual is None or instrument.means == "single":
        return ()
    near = in_tune_cents(instrument)
    found = ways(instrument, instrument.heard(note).pitch_cents)
    names = dict.fromkeys(w.tube.name for w in found if abs(w.error) <= near and w.tube.name != usual.name)
    return tuple(names)[:_OTHERS]


@lru_cache(maxsize=8)  # for its size, its page and its picture
def _columns(settings: Settings) -> tuple[Column, ...]:
    return tuple(_column(one, settings) for one in quarter_tones(settings.instrument))


def _rows(settings: Settings) -> tuple[Row, ...]:
    return rows_of(_columns(settings), settings.instrument, _MAX_NOTES)


def _body(settings: Settings) -> tuple[LyText, ...]:
    rows = _rows(settings)
    widest = max(len(row.columns) for row in rows)
    return (
        explained("quarter-tones", _columns(settings), settings),
        *(score(row, widest, layout="gsChartRow") for row in rows),
    )


def _staff(settings: Settings) -> Fraction:
    return filling(_rows(settings), settings)


def _column(one: QuarterTone, settings: Settings) -> Column:
    if one.verdict is Verdict.NOT_AS_WRITTEN or not one.tube:
        return Column(notes=(one.note,), texts=("–",), shut=True)
    below = str(one.partial) if settings.instrument.means == "single" else one.tube
    texts = (below, *(corrected(one.correction, -one.error, settings) or (_off(one.error),)), *one.others)
    return Column(notes=(one.note,), texts=texts, black=one.verdict is Verdict.WITH_CARE)


def _off(error: int) -> str:
    sign = "+" if error > 0 else "−" if error < 0 else "±"
    return f"({sign}{abs(error)})"


CHART = Chart(key="quarter-tones", body=_body, staff=_staff)
