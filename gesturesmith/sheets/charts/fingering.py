"""The fingering chart: every semitone of the range with its standard fingering below, and others in small print."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from gesturesmith.diagnostics import Verdict
from gesturesmith.exercises.probes import alone, written_range
from gesturesmith.instruments.base import Instrument
from gesturesmith.lytext import LyText
from gesturesmith.model.piece import Settings
from gesturesmith.realise.ways import in_tune_cents, ways
from gesturesmith.sheets.charts.base import Chart, Column, Row, corrected, explained, filling, rows_of, score
from gesturesmith.units import Spelling, spell
from gesturesmith.values import frozen

_OTHERS = 3  # per note: more than a player will try
_MAX_NOTES = 9  # in a row
CLOSED, OPEN = "+", "o"  # the signs for the closed and the open bell


@frozen(kw_only=True)
class Fingered:
    """A written semitone as the checker has it played, and other fingerings that are in tune.

    cents       written, above C-1
    verdict     the checker's on the note alone
    usual       the tube's name, with a single tube the partial's number with the sign of the hand; "" if nothing
                gives the note
    correction  what brings it into tune and by how many cents, + is up ("lip", -30); ("", 0) if it is in tune
    """

    cents: int
    verdict: Verdict
    usual: str
    correction: tuple[str, int]
    others: tuple[str, ...]


def fingered(instrument: Instrument) -> tuple[Fingered, ...]:
    """Every written semitone of the widest range, from the lowest with a fingering, lowest first."""
    rows = [_one(instrument, note) for note in written_range(instrument, widest=True)]
    first = next((n for n, row in enumerate(rows) if row.usual), 0)
    return tuple(rows[first:])


def _one(instrument: Instrument, note: Spelling) -> Fingered:
    judged = alone(instrument, note)
    played = judged.case.realisation.points[0]
    cents = int(note.pitch_cents)
    near = in_tune_cents(instrument)
    single, out = instrument.means == "single", abs(played.error_cents) > near
    by_hand = single and instrument.has_hand
    # The closed hand takes a note further down than it is in tune with by itself, with care.
    given = played.correction or played.standard or not out or (by_hand and played.error_cents > 0)
    if judged.verdict is Verdict.NOT_AS_WRITTEN or played.tube is None or not given:
        return Fingered(cents=cents, verdict=judged.verdict, usual="", correction=("", 0), others=())
    means: str = (played.correction or "lip") if out and not by_hand else ""
    sign = (CLOSED if played.error_cents > 0 else OPEN) if out and by_hand else ""
    usual = f"{played.partial} {sign}".strip() if single else played.tube.name
    found = ways(instrument, Fraction(cents) + instrument.sounding.cents) if not single else ()
    names = dict.fromkeys(w.tube.name for w in found if abs(w.error) <= near and w.tube.name != usual)
    return Fingered(
        cents=cents,
        verdict=judged.verdict,
        usual=usual,
        correction=(means, -round(played.error_cents) if means else 0),
        others=tuple(names)[:_OTHERS],
    )


def both_names(cents: int) -> tuple[Spelling, ...]:
    """The names of a written semitone: of a black key, both sharp and flat."""
    sharp = spell(cents, sharps=True)
    if not sharp.alter:
        return (sharp,)
    above = spell(cents + 100, sharps=True)
    return (sharp, Spelling(above.letter, Fraction(-1), above.octave))


@lru_cache(maxsize=8)  # for its size, its page and its picture
def _columns(settings: Settings) -> tuple[Column, ...]:
    return tuple(
        Column(
            notes=both_names(row.cents),
            texts=(row.usual or "–", *corrected(*row.correction, settings), *row.others),
            black=bool(row.usual) and row.verdict is Verdict.WITH_CARE,
            shut=not row.usual,
        )
        for row in fingered(settings.instrument)
    )


def _rows(settings: Settings) -> tuple[Row, ...]:
    return rows_of(_columns(settings), settings.instrument, _MAX_NOTES)


def _body(settings: Settings) -> tuple[LyText, ...]:
    rows = _rows(settings)
    widest = max(len(row.columns) for row in rows)
    return (
        explained("fingering", _columns(settings), settings),
        *(score(row, widest, layout="gsChartRow") for row in rows),
    )


def _staff(settings: Settings) -> Fraction:
    return filling(_rows(settings), settings)


CHART = Chart(key="fingering", body=_body, staff=_staff)
