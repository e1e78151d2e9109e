"""The instruments: shared limits once, then what is particular to each."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from gesturesmith import instruments
from gesturesmith.evidence import Limit
from gesturesmith.explain.limits import CURVE, FAR_WORDS
from gesturesmith.instruments.base import Instrument
from gesturesmith.units import spell
from handbook.markdown import LIMIT_HEAD, MADE, evidence_text, limit_rows, table, value_text

INTRODUCTION = (
    "Every number is given with its evidence: *derived* from a definition or a law, *published*, *practice* of "
    "players and teachers, from *memory*, or our own judgement (*house*). The last two lead at most to *with "
    "care*. A value in brackets is only used in calculations. *Far* is "
    f"{FAR_WORDS}. Limits of bends are for the middle of their register; {CURVE}."
)


@cache
def found() -> tuple[Instrument, ...]:
    """All instruments, by name."""
    return tuple(instruments.get(name) for name in instruments.names())


@cache
def common() -> dict[str, Limit]:
    """For every limit, the reading of most instruments; of equally frequent ones, the first."""
    readings: dict[str, list[Limit]] = {}
    for instrument in found():
        for name, limit in instrument.limits.items():
            readings.setdefault(name, []).append(limit)
    return {name: max(given, key=given.count) for name, given in readings.items()}


def own_limits(instrument: Instrument) -> dict[str, Limit]:
    """The limits in which an instrument differs from most others."""
    return {name: limit for name, limit in instrument.limits.items() if limit != common()[name]}


def _holders(name: str) -> str:
    """The instruments that have a given limit at all."""
    having = [i for i in found() if name in i.limits]
    lacking = [i for i in found() if name not in i.limits]
    if not lacking:
        return "all"
    kinds: tuple[tuple[str, Callable[[Instrument], bool]], ...] = (
        ("those with a hand in the bell", lambda i: i.has_hand),
        ("those with a hand in the bell and one tube only", lambda i: i.means == "single"),
        ("those with a slide", lambda i: i.kind == "slide"),
        ("those with valves", lambda i: i.means == "valves"),
        ("those without a hand in the bell", lambda i: not i.has_hand),
    )
    for words, belongs in kinds:
        if all(belongs(i) for i in having) and not any(belongs(i) for i in lacking):
            return words
    return ", ".join(f"`{i.key}`" for i in having)


def shared_section() -> str:
    """The limits common to most instruments."""
    rows = [(row[0], _holders(str(row[0]).strip("`")), *row[1:]) for row in limit_rows(common())]
    return "\n\n".join(
        (
            "## Limits that instruments share",
            "What holds for most of the instruments that have the limit. Where an instrument differs, its own "
            "section says how. Registers and levels stand in the names: `breath_flow_low_pp` is the air that "
            "pp takes in the low register.",
            table((LIMIT_HEAD[0], "instruments", *LIMIT_HEAD[1:]), rows),
        )
    )


def transposition_text(instrument: Instrument) -> str:
    semitones = instrument.sounding.cents / 100
    if not semitones:
        return "sounds as written"
    return f"sounds {abs(semitones)} semitones {'below' if semitones < 0 else 'above'} what is written"


def _ranges(instrument: Instrument) -> str:
    ranges = (
        ("usual: with care outside", instrument.usual_range),
        ("widest: not as written outside", instrument.widest_range),
    )
    rows = [
        (word, value_text(r.value, "", pitch=True).replace("to sounding", "to"), evidence_text(r))
        for word, r in ranges
    ]
    return table(("range", "sounding", "evidence"), rows)


def _registers(instrument: Instrument) -> str:
    rows = [(r.name, f"{r.low.name} to {r.high.name}", evidence_text(r.evidence)) for r in instrument.registers]
    return table(("register", "written", "evidence"), rows)


def _tubes(instrument: Instrument) -> str:
    rows = [
        (
            t.name,
            spell(t.fundamental_cents).name,
            f"{t.length_m:.2f} m",
            f"{1000 * t.round_trip_s:.1f} ms",
            "{} to {}".format(*t.partials),
            "{} to {}".format(*t.widest_partials),
        )
        for t in instrument.tubes
    ]
    head = ("tube", "first partial, sounding", "length", "to the bell and back", "usual partials", "widest")
    return table(head, rows)


def _fingerings(instrument: Instrument) -> str:
    """The standard chart in one paragraph, from the lowest note."""
    notes = "; ".join(f"{spell(c).name} {tube}" for c, tube in sorted(instrument.chart.items()))
    return f"Standard chart, written pitches ({evidence_text(instrument.chart_evidence)}): {notes}."


def _limits(instrument: Instrument, before: tuple[Instrument, ...]) -> str:
    own = own_limits(instrument)
    told: dict[str, list[str]] = {}
    for name in sorted(own):
        same = next((other.key for other in before if other.limits.get(name) == own[name]), None)
        if same is not None:
            told.setdefault(same, []).append(name)
    parts = [f"Limits as with `{key}`: {', '.join(f'`{name}`' for name in names)}." for key, names in told.items()]
    new = {name: limit for name, limit in own.items() if not any(name in names for names in told.values())}
    if new:
        parts.append(table(LIMIT_HEAD, limit_rows(new)))
    return "\n\n".join(parts) or "Its limits are those that instruments share."


_PARTS: dict[str, Callable[[Instrument], str]] = {
    "Range": _ranges,
    "Registers": _registers,
    "Tubes": _tubes,
    "Fingerings": _fingerings,
}


def instrument_section(
    instrument: Instrument, *, heading: str = "##", before: tuple[Instrument, ...] = (), named: bool = True
) -> str:
    """One instrument: range, registers, tubes, chart, limits, each with its evidence.

    before   instruments already described: anything equal to one of them is not repeated
    named    whether its key is in the heading
    """
    parts = [
        f"{heading} {instrument.name}" + (f": `{instrument.key}`" if named else ""),
        f"“{instrument.part_name}”, {transposition_text(instrument)}.",
    ]
    for name, part in _PARTS.items():
        text = part(instrument)
        same = next((other for other in before if part(other) == text), None)
        parts.append(f"{name} as with `{same.key}`." if same is not None else text)
    return "\n\n".join((*parts, _limits(instrument, before)))


def instruments_page() -> str:
    sections = [instrument_section(one, before=found()[:n]) for n, one in enumerate(found())]
    return "\n\n".join(("# Instruments", MADE, INTRODUCTION, shared_section(), *sections)) + "\n"
