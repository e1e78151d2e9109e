"""From a profile to an instrument, with all of its errors at once.

A profile is complete, or is `based_on` an instrument or another profile and states only the differences. The file
of a `player` states what this player can do on an instrument described elsewhere.
"""

from __future__ import annotations

import difflib
import os
from collections.abc import Mapping
from dataclasses import replace
from functools import cache, lru_cache
from pathlib import Path
from typing import Any, get_args

from gesturesmith import instruments, techniques
from gesturesmith.acoustics.tubing import TUNINGS
from gesturesmith.evidence import Limit, Sourced
from gesturesmith.instruments._build import cents, note, slide_tubes, valve_tubes
from gesturesmith.instruments.base import ALONE, UNKNOWN_PROGRAM, UNKNOWN_SOUND, Instrument, Register, Side, Tube
from gesturesmith.instruments.profile.file import (
    MARK,
    OUTSIDE,
    ProfileError,
    located,
    parse,
    read_bytes,
)
from gesturesmith.instruments.profile.student import of_student
from gesturesmith.instruments.profile.values import Table, interval_named, is_pitch
from gesturesmith.kinds import Clef, InstrumentKind, Tuning, one_of
from gesturesmith.paths import lies_within
from gesturesmith.techniques.base import OWN_LIMITS, own_name
from gesturesmith.units import UNISON, Interval, spell

__all__ = ["ProfileError", "load"]

REGISTER_NAMES = ("low", "middle", "high", "top")
_DEEPEST = 8  # levels of profiles based on profiles
_TOP = (
    f"{MARK} player based_on key name names part_name part_names abbreviation kind written_to_sounding hand "
    "third_slide usual_range widest_range clefs sides registers chart chart_evidence hand_chart bell_in_reach "
    "partials limits sound midi_program student"
).split(" ")
_OF_PLAYER = (MARK, "player", "based_on", "name", "limits", "usual_range", "widest_range", "student")
_NEW_TUBES = {"sides", "kind", "usual_range", "widest_range", "third_slide"}
_LANGUAGES = ("de", "fr", "it")  # besides English, the language of `part_name`
_CLEFS = get_args(Clef)


def load(path: Path, *, within: Path | None = None) -> tuple[Instrument | None, tuple[ProfileError, ...]]:
    """The instrument a profile describes; None with its errors, in order of lines, if it cannot be used.

    `within`: the folder that must contain it and every profile it is based on; None for anywhere.
    """
    return _load(path, (), within)


@lru_cache(maxsize=32)
def _one(instrument: Instrument) -> Instrument:
    """The first of all equal instruments, so that what is cached for it is found again."""
    return instrument


def _load(
    path: Path, above: tuple[Path, ...], within: Path | None
) -> tuple[Instrument | None, tuple[ProfileError, ...]]:
    data = read_bytes(path) if within is None or lies_within(path, within) else OUTSIDE
    if isinstance(data, ProfileError):
        return None, (data,)
    parsed = parse(data)
    if isinstance(parsed, ProfileError):
        return None, (parsed,)
    values, lines = parsed
    errors: list[ProfileError] = []
    top = Table(values, (), lines, errors)
    top.known(_TOP)
    top.whole(MARK, None, 1, 1)
    _player(top)
    base = _base(top, path, above, within)
    if base is None and {"based_on", "player"} & {*values}:
        _without_base(top)
        return None, _in_order(errors)
    instrument = _instrument(top, base, path)
    if "student" in top.values:
        if top.owner:
            instrument = of_student(top, instrument)
        else:
            top.error("student", "only the profile of a player has this", 'player = "Mia" at its head')
    return (None if errors else _one(instrument)), _in_order(errors)


def _in_order(errors: list[ProfileError]) -> tuple[ProfileError, ...]:
    return tuple(sorted(errors, key=lambda e: (e.line, e.key)))


def _player(top: Table) -> None:
    """Whether it is the file of a player: everything in it then applies to this player only."""
    if "player" not in top.values:
        return
    name = top.text("player", None)
    top.owner = f"this player, {name}" if name else "this player"
    if "based_on" not in top.values:
        top.error("based_on", "this is missing", "the player's instrument, by its name or the path of its profile")
    for key in top.values:
        if key in _TOP and key not in _OF_PLAYER:
            top.error(key, "this belongs to the instrument, not to its player", ", ".join(_OF_PLAYER[1:]))


def _without_base(top: Table) -> None:
    """Read as much as possible of a profile with an unknown instrument, to find its other errors."""
    _limits(top.table("limits"), {})
    for key in ("usual_range", "widest_range"):
        if key in top.values:
            _range(top, key, None)
    if "registers" in top.values:
        _registers(top)
    _sounding(top, UNISON)


def _base(top: Table, path: Path, above: tuple[Path, ...], within: Path | None) -> Instrument | None:
    """The base of the profile: an instrument by name, or another profile by path."""
    if "based_on" not in top.values:
        return None
    name = top.text("based_on", "")
    if name in instruments.names():
        return instruments.get(name)
    if not name.endswith(".toml"):
        near = difflib.get_close_matches(name, instruments.names(), 3) if name else []
        usual = "the name of an instrument, or the path of a .toml file"
        top.error("based_on", "unknown instrument", ", ".join(near) or usual)
        return None
    # Not `Path.resolve`, which raises for circular links: opening such a file gives the reason.
    chain = (*above, Path(os.path.realpath(path)))
    other = located(path.parent, name)
    if Path(os.path.realpath(other)) in chain or len(chain) >= _DEEPEST:
        top.error("based_on", "these profiles are based on each other", "a profile without based_on")
        return None
    found, errors = _load(other, chain, within)
    for error in errors:
        top.error("based_on", error.message)
    return found


def _instrument(top: Table, base: Instrument | None, path: Path) -> Instrument:
    """The instrument, not usable if there are errors: every table is read, to find all of them."""
    kind = top.one_of("kind", base.kind if base else "valves", get_args(InstrumentKind))
    sides = _sides(top, kind) if "sides" in top.values or base is None else base.sides
    usual = _range(top, "usual_range", base.usual_range if base else None)
    widest = _range(top, "widest_range", base.widest_range if base else None)
    if usual.value[0] < widest.value[0] or usual.value[1] > widest.value[1]:
        if "usual_range" in top.values and "widest_range" not in top.values:
            edges = " to ".join(spell(cents).name for cents in widest.value)
            top.error(
                "usual_range", "this reaches beyond the widest range", f"{edges}, or a widest_range of its own"
            )
        else:
            top.error("widest_range", "the usual range reaches beyond it", "pitches that hold the usual range")
    third = _third_slide(top, base.third_slide if base else ALONE)
    tubes = base.tubes if base else ()
    if base is None or (_NEW_TUBES & {*top.values} and not top.owner):
        tubes = _tubes(kind, sides, usual, widest, third)
    tubes = _partials(top.table("partials"), tubes)
    name = top.text("name", base.name if base else None)
    inherited: Mapping[str, Limit] = base.limits if base else {}
    return Instrument(
        key=top.text("key", base.key if base else path.stem),
        name=name,
        part_name=top.text("part_name", base.part_name if base else name),
        part_names=_names(top, "part_name", base.part_names if base else {}),
        names=_names(top, "name", base.names if base else {}),
        abbreviation=top.text("abbreviation", base.abbreviation if base else ""),
        sounding=_sounding(top, base.sounding if base else UNISON),
        sides=sides,
        tubes=tubes,
        registers=_registers(top) if "registers" in top.values or base is None else base.registers,
        usual_range=usual,
        widest_range=widest,
        chart=_chart(top, "chart", tubes, base.chart if base else {}),
        chart_evidence=_chart_evidence(top, base),
        limits={**inherited, **_limits(top.table("limits"), inherited)},
        kind=kind,
        has_hand=top.flag("hand", base.has_hand if base else False),
        bell_in_reach=top.flag("bell_in_reach", base.bell_in_reach if base else True),
        clefs=_clefs(top, base.clefs if base else (("treble", -100000),)),
        third_slide=third,
        hand_chart=_chart(top, "hand_chart", tubes, base.hand_chart if base else {}),
        sound=top.text("sound", base.sound if base else UNKNOWN_SOUND),
        midi_program=top.whole("midi_program", base.midi_program if base else UNKNOWN_PROGRAM, 1, 128),
    )


def _names(top: Table, key: str, inherited: Mapping[str, str]) -> Mapping[str, str]:
    """`names` or `part_names`: a name in the other languages. One of the profile's own is used in all of them."""
    if f"{key}s" not in top.values:
        return inherited if key not in top.values else {}
    table = top.table(f"{key}s")
    table.known(_LANGUAGES)
    return {language: table.text(language, None) for language in _LANGUAGES if language in table.values}


def _sounding(top: Table, default: Interval) -> Interval:
    if "written_to_sounding" not in top.values:
        return default
    found = interval_named(top.text("written_to_sounding", ""))
    if found is None:
        top.error("written_to_sounding", "unknown interval", 'such as "P5 down", "M2 down", "unison"')
    return found or default


def _sides(top: Table, kind: InstrumentKind) -> tuple[Side, ...]:
    sides: list[Side] = []
    for table in top.tables("sides")[:5]:  # one more than allowed
        table.known({"name", "first_partial", "valves", "positions", "partials", "stopped"})
        name = table.text("name", "")
        if not name.isalnum() and name:
            table.error("name", "a side has a short name", "letters and digits, or empty")
        if name in [s.name for s in sides]:
            table.error("name", "this name is already taken by another side", "another name")
        partials = table.table("partials").limit((1, 2)) if "partials" in table.values else None
        stopped = table.table("stopped")
        stopped.known({"cents", "kind", "source"})
        sides.append(
            Side(
                name=name,
                fundamental_cents=cents(table.pitch("first_partial")),
                partials=partials or Limit(table.evidence((2, 12)), None, "partial"),
                valves=table.wholes("valves", (0, 6), 1, 7) if kind == "valves" else (),
                positions=table.whole("positions", 7, 1, 7) if kind == "slide" else 0,
                stopped_cents=stopped.evidence(stopped.whole("cents", None, 1, 400)) if stopped.values else None,
            )
        )
    if not 1 <= len(sides) <= 4:
        top.error("sides", "an instrument has at least one side", "one to four [[sides]]")
    return tuple(sides)


def _range(top: Table, key: str, base: Sourced[tuple[int, int]] | None) -> Sourced[tuple[int, int]]:
    if key not in top.values and base is not None:
        return base
    table = top.table(key)
    table.known({"low", "high", "kind", "source"})
    low, high = cents(table.pitch("low")), cents(table.pitch("high", "C5" if not table.values else None))
    if low >= high:
        table.error("high", "must be above low", "sounding pitches, low below high")
    return table.evidence((low, high))


def _third_slide(top: Table, base: Sourced[Tuning]) -> Sourced[Tuning]:
    if "third_slide" not in top.values:
        return base
    table = top.table("third_slide")
    table.known({"tuned", "kind", "source"})
    return table.evidence(table.one_of("tuned", ALONE.value, TUNINGS))


def _registers(top: Table) -> tuple[Register, ...]:
    found: list[Register] = []
    for table in top.tables("registers")[:5]:
        table.known({"name", "low", "high", "kind", "source"})
        name = table.text("name", None, REGISTER_NAMES)
        low, high = note(table.pitch("low")), note(table.pitch("high"))
        if low.pitch_cents >= high.pitch_cents:
            table.error("high", "must be above low", "written pitches, low below high")
        if found and (low.pitch_cents <= found[-1].low.pitch_cents or name in [r.name for r in found]):
            table.error("low", "registers must be in order, each once", "the lowest register first")
        found.append(Register(name=name, low=low, high=high, evidence=table.evidence("written limits")))
    if not found:
        top.error("registers", "an instrument has at least one register", "[[registers]] with name, low and high")
    return tuple(found)


def _tubes(
    kind: InstrumentKind,
    sides: tuple[Side, ...],
    usual: Sourced[tuple[int, int]],
    widest: Sourced[tuple[int, int]],
    third: Sourced[Tuning],
) -> tuple[Tube, ...]:
    if kind == "slide":
        return slide_tubes(sides, usual.value[1], widest.value[1])
    return valve_tubes(sides, usual.value[1], widest.value[1], third_slide=third.value)


def _partials(table: Table, tubes: tuple[Tube, ...]) -> tuple[Tube, ...]:
    """The tubes with the profile's partials: usual lowest and highest, widest lowest and highest."""
    table.known(tube.name for tube in tubes)
    result = []
    for tube in tubes:
        numbers = table.wholes(tube.name, (4, 4), 1, 64) if tube.name in table.values else ()
        if numbers:
            low, high, lowest, highest = numbers
            if not lowest <= low <= high <= highest:
                table.error(
                    tube.name, "these partials are out of order", "[usual low, usual high, lowest, highest]"
                )
            tube = replace(tube, partials=(low, high), widest_partials=(lowest, highest))
        result.append(tube)
    return tuple(result)


def _chart(top: Table, key: str, tubes: tuple[Tube, ...], default: Mapping[int, str]) -> dict[int, str]:
    """A chart of the profile; an inherited one must still fit the tubes."""
    names = {tube.name for tube in tubes}
    if key not in top.values:
        return {pitch: tube for pitch, tube in default.items() if tube in names}
    table, chart = top.table(key), {}
    for pitch, tube in table.values.items():
        if not is_pitch(pitch):
            table.error(pitch, "not a written pitch", "a pitch in quotes such as F#2")
        elif not isinstance(tube, str) or (names and tube not in names):
            table.error(pitch, "unknown fingering", ", ".join(sorted(names)))
        else:
            chart[cents(pitch)] = tube
    return chart


def _chart_evidence(top: Table, base: Instrument | None) -> Sourced[Any]:
    if "chart_evidence" not in top.values and base is not None:
        return base.chart_evidence
    table = top.table("chart_evidence")
    table.known({"about", "kind", "source"})
    return table.evidence(table.text("about", "the profile's chart"))


def _limits(table: Table, base: Mapping[str, Limit]) -> dict[str, Limit]:
    """The limits of a profile, read against those of the instrument it is based on."""
    all_of_them = ("horn", "natural-horn", "trombone", "euphonium")  # these have all limits, between them
    shipped = (instruments.get(n).limits for n in all_of_them)
    known = {name: limit for limits in (_of_techniques(), *shipped, base) for name, limit in limits.items()}
    table.known(known)
    result = {}
    for name in table.values:
        if name in known:
            limit = table.table(name).limit(known[name].narrow.value, base.get(name, _of_techniques().get(name)))
            if limit is not None:
                unit = limit.unit or known[name].unit
                result[name] = replace(limit, unit=unit, side=known[name].side)
    return result


@cache
def _of_techniques() -> Mapping[str, Limit]:
    """The limits of techniques that a profile may set: "growl.longest_s"."""
    found = (techniques.get(key) for key in techniques.names())
    return {own_name(t.key, name): t.limits[name] for t in found for name in OWN_LIMITS if name in t.limits}


def _clefs(top: Table, default: tuple[tuple[Clef, int], ...]) -> tuple[tuple[Clef, int], ...]:
    """Clefs from ["treble G3", "bass"]: each with the lowest written pitch it suits, the last without one."""
    if "clefs" not in top.values:
        return default
    value = top.values["clefs"]
    clefs: list[tuple[Clef, int]] = []
    rows = value if isinstance(value, list) and value else [""]
    for i, row in enumerate(rows):
        clef, _, pitch = row.partition(" ") if isinstance(row, str) else ("", "", "")
        last = i == len(rows) - 1
        if clef not in _CLEFS or (not last and not is_pitch(pitch)) or (last and pitch):
            top.error("clefs", "invalid clefs", '["treble G3", "bass"]: each but the last with its lowest pitch')
            return default
        clefs.append((one_of(_CLEFS, clef), -100000 if last else cents(pitch)))
    return tuple(clefs)
