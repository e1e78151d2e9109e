"""The `[student]` table of a player's profile: what a student has learnt and can reach, in written pitches."""

from __future__ import annotations

import re
from dataclasses import replace

from gesturesmith.evidence import PLAYER, Limit, Sourced
from gesturesmith.instruments._build import note
from gesturesmith.instruments.base import Instrument, Student, Tube
from gesturesmith.instruments.profile.values import Table
from gesturesmith.units import key_signature, spell

KEYS = ("lowest", "highest", "position", "valves", "trigger", "keys", "tempo", "attacks", "minutes", "braces")
_MAJOR = re.compile(r"([A-G])(#|b)?( major)?\Z")
_TEMPI = (30, 240)  # quarters a minute
_MOST_KEYS = 15
_MOST_SIGNS = 7
_BRACES = 0.5  # share of the endurance that is left with braces: our own judgement
_ATTACKS = ("single_tongue_per_s_", "double_tongue_per_s_", "triple_tongue_per_s_")


def of_student(top: Table, instrument: Instrument) -> Instrument:
    """The instrument as a student plays it: no note, tube or speed beyond what the profile says."""
    table = top.table("student")
    table.known(KEYS)
    name = top.text("player", "")
    found = _reached(table, _range(table, instrument))
    limits = dict(found.limits)
    if "attacks" in table.values:
        most = float(table.whole("attacks", 4, 1, 20))
        own: Sourced[float] = Sourced(most, PLAYER, f"{top.owner}: {most:g} attacks a second")
        for limit in limits:
            if limit.startswith(_ATTACKS) and limits[limit].narrow.value > most:
                limits[limit] = replace(limits[limit], narrow=own)
    braces = table.flag("braces", False)
    if braces and (reserve := limits.get("effort_reserve_s")) is not None:
        source = f"{top.owner}, wears braces: half the endurance; the number is ours"
        value = Sourced(reserve.narrow.value * _BRACES, PLAYER, source)
        limits["effort_reserve_s"] = replace(reserve, narrow=value)
    student = Student(
        name=name,
        keys=_keys(table),
        tempi=_tempi(table),
        minutes=table.whole("minutes", 60, 5, 3000) if "minutes" in table.values else None,
        braces=braces,
    )
    return replace(found, limits=limits, student=student)


def _range(table: Table, instrument: Instrument) -> Instrument:
    """With the student's lowest and highest written note."""
    if not {"lowest", "highest"} & {*table.values}:
        return instrument
    shift = instrument.sounding.cents
    usual = [int(cents - shift) for cents in instrument.usual_range.value]
    names = [spell(cents).name for cents in usual]
    low, high = (note(table.pitch(key, name)) for key, name in zip(("lowest", "highest"), names, strict=True))
    if low.pitch_cents >= high.pitch_cents:
        table.error("highest", "must be above lowest", "written pitches, lowest below highest")
        return instrument
    widest = [cents - shift for cents in instrument.widest_range.value]
    for key, one in (("lowest", low), ("highest", high)):
        if not widest[0] <= one.pitch_cents <= widest[1]:
            allowed = " to ".join(spell(cents).name for cents in widest)
            table.error(key, "the instrument has no such note", f"a written pitch from {allowed}")
    ends = (int(low.pitch_cents + shift), int(high.pitch_cents + shift))
    own = Sourced(ends, PLAYER, f"{table.owner}: written {low.name} to {high.name}")
    return replace(instrument, usual_range=own, widest_range=own)


def _reached(table: Table, instrument: Instrument) -> Instrument:
    """Without the tubes that arm or fingers do not reach."""
    slide = instrument.kind == "slide"
    for key, there in (("position", slide), ("valves", not slide), ("trigger", slide)):
        if key in table.values and not there:
            table.error(key, f"this instrument has no {key}", "leave it out")
    position = table.whole("position", 7, 3, 7)
    valves = table.whole("valves", 7, 1, 7)
    trigger = table.flag("trigger", True)

    def reached(tube: Tube) -> bool:
        if slide:
            return int(tube.valves) <= position and (trigger or tube.side == instrument.sides[0].name)
        return all(int(valve) <= valves for valve in tube.valves.split("-"))

    tubes = tuple(tube for tube in instrument.tubes if reached(tube))
    names = {tube.name for tube in tubes}
    sides = tuple(
        replace(side, positions=min(side.positions, position)) if slide else side
        for side in instrument.sides
        if any(tube.side == side.name for tube in tubes)
    )
    limits = dict(instrument.limits)
    end = limits.get("slide_end_position")
    if slide and end is not None and position < end.narrow.value:
        limits["slide_end_position"] = Limit(
            Sourced(float(position), PLAYER, f"{table.owner}: reaches position {position}"), None, end.unit
        )
    return replace(
        instrument,
        sides=sides,
        tubes=tubes,
        limits=limits,
        chart={pitch: tube for pitch, tube in instrument.chart.items() if tube in names},
        hand_chart={pitch: tube for pitch, tube in instrument.hand_chart.items() if tube in names},
    )


def _keys(table: Table) -> tuple[int, ...]:
    value = table.values.get("keys", [])
    allowed = '["Bb major", "Eb major"]: major keys as they are written'
    if not isinstance(value, list) or len(value) > _MOST_KEYS:
        table.error("keys", "this is a list of keys", allowed)
        return ()
    found = []
    for name in value:
        match = _MAJOR.match(name) if isinstance(name, str) else None
        fifths = key_signature(f"{match[1]}{match[2] or ''}", "major").fifths if match is not None else 0
        if match is None or abs(fifths) > _MOST_SIGNS:
            table.error("keys", "no such key", allowed)
        else:
            found.append(fifths)
    return tuple(found)


def _tempi(table: Table) -> tuple[int, int] | None:
    if "tempo" not in table.values:
        return None
    numbers = table.wholes("tempo", (2, 2), *_TEMPI)
    if not numbers:
        return None
    if numbers[0] > numbers[1]:
        table.error("tempo", "these are out of order", "[slowest, fastest], in quarters a minute")
    return min(numbers), max(numbers)
