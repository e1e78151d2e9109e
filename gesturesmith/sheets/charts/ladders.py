"""The harmonic series of every tube: its partials on a staff, with their numbers and cents."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.acoustics.series import partial_cents
from gesturesmith.instruments.base import Instrument, Tube
from gesturesmith.kinds import Clef
from gesturesmith.lytext import LyText
from gesturesmith.model.piece import Settings
from gesturesmith.realise.ways import in_tune_cents
from gesturesmith.sheets.charts.base import Chart, Column, Row, clef_for, paragraph, score
from gesturesmith.units import Spelling, spell_ladder
from gesturesmith.values import frozen
from gesturesmith.wording import said

_STAFF = Fraction(5, 7)  # there is a staff for every tube


@frozen(kw_only=True)
class Rung:
    """One partial of a tube: its number, the nearest written semitone, and its cents from that, + is sharp.

    usual    playable by the narrow reading
    """

    number: int
    note: Spelling
    cents: int
    usual: bool


def ladder(instrument: Instrument, tube: Tube) -> tuple[Rung, ...]:
    """Every partial of a tube that any source considers playable, lowest first."""
    low, high = tube.widest_partials
    numbers = range(low, high + 1)
    written = [tube.fundamental_cents + partial_cents(n) - float(instrument.sounding.cents) for n in numbers]
    nearest = [100 * round(cents / 100) for cents in written]
    return tuple(
        Rung(
            number=n,
            note=note,
            cents=round(cents - note.pitch_cents),
            usual=tube.partials[0] <= n <= tube.partials[1],
        )
        for n, note, cents in zip(numbers, spell_ladder(nearest), written, strict=True)
    )


def _body(settings: Settings) -> tuple[LyText, ...]:
    instrument = settings.instrument
    ladders = {tube: ladder(instrument, tube) for tube in instrument.tubes}
    widest = max(len(rungs) for rungs in ladders.values())
    near = in_tune_cents(instrument)
    scores = []
    for tube, rungs in ladders.items():
        columns = tuple(_column(rung, near) for rung in rungs)
        row = Row(
            columns=columns,
            clefs=_clefs(instrument, tube.side, rungs),
            label=tube.name if len(instrument.tubes) > 1 else "",
        )
        scores.append(score(row, widest, layout="gsChartLadder"))
    legend = said("chart-ladders-legend", settings.wording).replace("{cents}", f"{near:g}")
    return (paragraph(legend), *scores)


def _column(rung: Rung, near: float) -> Column:
    sign = "+" if rung.cents > 0 else "−" if rung.cents < 0 else "±"
    texts = (str(rung.number), f"{sign}{abs(rung.cents)}")
    return Column(notes=(rung.note,), texts=texts, black=abs(rung.cents) > near, shut=not rung.usual)


def _clefs(instrument: Instrument, side: str, rungs: tuple[Rung, ...]) -> tuple[tuple[Clef, int], ...]:
    """Clef changes: at the same partial on every tube of a side, so that their columns align."""
    open_tube = next(t for t in instrument.tubes if t.side == side)
    first = [clef_for(instrument, float(r.note.pitch_cents)) for r in ladder(instrument, open_tube)]
    clefs = [(first[0], 0)]
    clefs += [(clef, n) for n, clef in enumerate(first) if n and clef != first[n - 1]]
    return tuple((clef, n) for clef, n in clefs if n < len(rungs))


CHART = Chart(key="ladders", body=_body, staff=_STAFF)
