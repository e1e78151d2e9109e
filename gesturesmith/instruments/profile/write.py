"""From an instrument to an equivalent profile, as a file to start from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Any

from gesturesmith.evidence import Limit, Sourced
from gesturesmith.instruments.base import Instrument, Side
from gesturesmith.instruments.profile.file import MARK
from gesturesmith.kinds import InstrumentKind
from gesturesmith.units import Interval, interval, spell


def to_toml(instrument: Instrument) -> str:
    """A complete profile of `instrument` in TOML; reading it gives the same instrument."""
    return "\n".join(
        [
            "# An instrument profile. Change what you like and name the file in a piece:",
            '#     instrument: "my-own.toml"',
            '# A profile may be much shorter: based_on = "horn" supplies everything it omits.',
            "# Ranges and first partials are sounding pitches; registers and charts are written ones.",
            "",
            f"{MARK} = 1",
            *_heading(instrument),
            *_sides(instrument),
            *_registers(instrument),
            *_charts(instrument),
            *_partials(instrument),
            *_limits(instrument),
            "",
        ]
    )


def _heading(instrument: Instrument) -> Iterable[str]:
    for key in ("key", "name", "part_name", "abbreviation", "kind", "sound", "midi_program"):
        yield f"{key} = {_value(getattr(instrument, key))}"
    yield f"part_names = {_names(instrument.part_names)}  # at the head of its parts in other languages"
    if instrument.names:
        yield f"names = {_names(instrument.names)}  # which instrument it is"
    yield f"written_to_sounding = {_value(interval_name(instrument.sounding))}"
    yield f"hand = {_value(instrument.has_hand)}"
    yield f"bell_in_reach = {_value(instrument.bell_in_reach)}"
    third = instrument.third_slide
    yield f"third_slide = {{ tuned = {_value(third.value)}, {_evidence(third)} }}"
    for key, limits in (("usual_range", instrument.usual_range), ("widest_range", instrument.widest_range)):
        low, high = (_pitch(c) for c in limits.value)
        yield f"{key} = {{ low = {low}, high = {high}, {_evidence(limits)} }}"
    chart = instrument.chart_evidence
    yield f"chart_evidence = {{ about = {_value(str(chart.value))}, {_evidence(chart)} }}"
    rows = [clef if low <= -100000 else f"{clef} {_name(low)}" for clef, low in instrument.clefs]
    yield f"clefs = {_value(rows)}"


def _names(names: Mapping[str, str]) -> str:
    said = ", ".join(f"{language} = {_value(name)}" for language, name in sorted(names.items()))
    return f"{{ {said} }}"


def _sides(instrument: Instrument) -> Iterable[str]:
    for side in instrument.sides:
        yield "\n[[sides]]"
        yield from _side(side, instrument.kind)


def _side(side: Side, kind: InstrumentKind) -> Iterable[str]:
    yield f"name = {_value(side.name)}"
    yield f"first_partial = {_pitch(side.fundamental_cents)}"
    if kind == "slide":
        yield f"positions = {side.positions}"
    else:
        yield f"valves = {_value(side.valves)}  # semitones each valve lowers the pitch by"
    yield f"partials = {_limit(side.partials)}"
    if side.stopped_cents is not None:
        yield f"stopped = {{ cents = {side.stopped_cents.value}, {_evidence(side.stopped_cents)} }}"


def _registers(instrument: Instrument) -> Iterable[str]:
    for register in instrument.registers:
        yield "\n[[registers]]"
        yield f"name = {_value(register.name)}"
        yield f"low = {_value(register.low.name)}"
        yield f"high = {_value(register.high.name)}"
        yield f"kind = {_value(register.evidence.kind.value)}"
        yield f"source = {_value(register.evidence.source)}"


def _charts(instrument: Instrument) -> Iterable[str]:
    for heading, chart in (("chart", instrument.chart), ("hand_chart", instrument.hand_chart)):
        yield f"\n[{heading}]"
        for written in sorted(chart):
            yield f"{_pitch(written)} = {_value(chart[written])}"


def _partials(instrument: Instrument) -> Iterable[str]:
    yield "\n# Usual lowest and highest partial, then the widest reading of both."
    yield "[partials]"
    for tube in instrument.tubes:
        yield f"{_value(tube.name)} = {_value([*tube.partials, *tube.widest_partials])}"


def _limits(instrument: Instrument) -> Iterable[str]:
    yield "\n# Beyond `narrow` a caution; beyond `wide`, if there is one, refused."
    yield "# `wide_means` says what `wide` is, if it is not another reading of the same."
    yield "[limits]"
    for name in sorted(instrument.limits):
        key = _value(name) if "." in name else name
        yield f"{key} = {_limit(instrument.limits[name])}"


def interval_name(interval_: Interval) -> str:
    """An interval as written in profiles: "P5 down", "unison"."""
    size = interval_ if interval_.steps >= 0 else -interval_
    if size == Interval(0, Fraction(0)):
        return "unison"
    name = next(q for q in (f"{quality}{size.steps + 1}" for quality in "PMmAd") if interval(q) == size)
    return f"{name} {'up' if interval_.steps >= 0 else 'down'}"


def _limit(limit: Limit) -> str:
    parts = [f"narrow = {_value(limit.narrow.value)}", _evidence(limit.narrow)]
    if limit.wide is not None:
        parts += [f"wide = {_value(limit.wide.value)}", _evidence(limit.wide, "wide_")]
    if limit.wide_means:
        parts.append(f"wide_means = {_value(limit.wide_means)}")
    if limit.unit:
        parts.append(f"unit = {_value(limit.unit)}")
    return f"{{ {', '.join(parts)} }}"


def _evidence(sourced: Sourced[Any], prefix: str = "") -> str:
    return f"{prefix}kind = {_value(sourced.kind.value)}, {prefix}source = {_value(sourced.source)}"


def _name(cents: int) -> str:
    return spell(Fraction(cents)).name


def _pitch(cents: int) -> str:
    return _value(_name(cents))


def _value(value: Any) -> str:
    """A TOML value: text, boolean, number, array."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'
    if isinstance(value, list | tuple):
        return f"[{', '.join(_value(v) for v in value)}]"
    return str(value)
