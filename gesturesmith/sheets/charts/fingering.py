"""The fingering chart: every semitone of the range with its standard fingering below, and others in small print."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.exercises.probes import written_range
from gesturesmith.instruments.base import Instrument
from gesturesmith.lytext import LyText
from gesturesmith.model.piece import Settings
from gesturesmith.realise.ways import PossibleFingering, in_tune_cents, raised, ways
from gesturesmith.sheets.charts.base import Chart, Column, explained, rows_of, score
from gesturesmith.units import Spelling, spell
from gesturesmith.values import frozen

_OTHERS = 3  # per note: more than a player will try
_MAX_NOTES = 12  # in a row
CLOSED, OPEN = "+", "o"  # the signs for the closed and the open bell


@frozen(kw_only=True)
class Fingered:
    """A written semitone, its standard fingering, and others in tune; with a single tube, its partial.

    cents    written, above C-1
    usual    "" if nothing gives the note
    """

    cents: int
    usual: str
    others: tuple[str, ...]


def fingered(instrument: Instrument) -> tuple[Fingered, ...]:
    """Every written semitone of the widest range, from the lowest with a fingering, lowest first."""
    rows = [_one(instrument, int(note.pitch_cents)) for note in written_range(instrument, widest=True)]
    first = next((n for n, row in enumerate(rows) if row.usual), 0)
    return tuple(rows[first:])


def _one(instrument: Instrument, cents: int) -> Fingered:
    found = ways(instrument, Fraction(cents) + instrument.sounding.cents)
    near = in_tune_cents(instrument)
    if len(instrument.tubes) == 1:
        return Fingered(cents=cents, usual=_on_one_tube(instrument, found[0], near), others=())
    usual = instrument.chart.get(cents, "")
    good = [w for w in found if abs(w.error) <= near]
    if not usual and good:
        # Beyond the chart, the fingering of the octave above, which the hand knows: our own judgement.
        octave = instrument.chart.get(cents + 1200)
        usual = octave if octave in {w.tube.name for w in good} else good[0].tube.name
    names = dict.fromkeys(w.tube.name for w in good)
    if usual not in names:  # the slide a little in or out from the chart's position, as for G4
        usual = next((n for n in names if n.split()[-1] == usual), usual)
    others = [n for n in names if n != usual]
    return Fingered(cents=cents, usual=usual, others=tuple(others)[:_OTHERS])


def _on_one_tube(instrument: Instrument, way: PossibleFingering, near: float) -> str:
    """The partial of a note, with a sign if the hand closes or opens for it; "" if nothing gives it."""
    hand = instrument.limits.get("hand_lower_cents")
    if abs(way.error) <= near:
        return str(way.partial)
    if raised(instrument, way.partial, way.error):
        return f"{way.partial} {OPEN}"
    by_hand = instrument.has_hand and hand is not None and 0 < way.error <= hand.narrow.value
    return f"{way.partial} {CLOSED}" if by_hand else ""


def both_names(cents: int) -> tuple[Spelling, ...]:
    """The names of a written semitone: of a black key, both sharp and flat."""
    sharp = spell(cents, sharps=True)
    if not sharp.alter:
        return (sharp,)
    above = spell(cents + 100, sharps=True)
    return (sharp, Spelling(above.letter, Fraction(-1), above.octave))


def _body(settings: Settings) -> tuple[LyText, ...]:
    instrument = settings.instrument
    columns = [
        Column(notes=both_names(row.cents), texts=(row.usual or "–", *row.others), shut=not row.usual)
        for row in fingered(instrument)
    ]
    rows = rows_of(columns, instrument, _MAX_NOTES)
    widest = max(len(row.columns) for row in rows)
    return (
        explained("fingering", columns, settings),
        *(score(row, widest, layout="gsChartRow") for row in rows),
    )


CHART = Chart(key="fingering", body=_body)
