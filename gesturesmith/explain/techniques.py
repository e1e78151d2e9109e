"""Explains a technique: what it is, its limits, its notation and the reason for it."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from dataclasses import replace

from gesturesmith import techniques, wording
from gesturesmith.evidence import Limit, Sourced
from gesturesmith.kinds import JoinVerdict
from gesturesmith.techniques.base import LAYER_WORDS, NEED_WORDS, Technique

_WIDTH = 96
_LINE_WORDS = {
    "straight": "--",
    "wavy": "~~",
    "broken": "::",
    "dotted": "..",
    "arrow": "->",
    "slur": "__",
    "none": "a comma",
}
_PATH_WORDS = {
    "lip": "the lip moves it, around a fixed tube",
    "hand": "the hand in the bell lowers it",
    "hand-out": "the lip moves it with the hand out of the bell, where partials are close",
    "partials": "it sweeps through the partials of one tube",
    "valves": "the valves move while the lip follows",
    "steps": "a fast run of fingered notes",
    "slide": "the slide moves it, on one partial",
    "against": "the slide moves one way and the lip crosses the partials the other way",
    "trigger": "the slide moves it, on one partial, and goes on with the trigger",
    "half-valve": "the valves are half down, which shifts and blurs the partials",
}
_PITCH_WORDS = {
    "exact": "exact pitches are possible",
    "about": "approximate: write x-notes or heights",
    "none": "none",
}
_LIMIT_NAMES = {
    "fastest_per_s": "at most",
    "shortest_ms": "at least",
    "longest_s": "unbroken for at most",
    "softest": "not softer than",
    "loudest": "not louder than",
    "registers": "speaks well in the register",
    "cycles_hz": "rolls at",
    "cycle_periods": "periods of the note in one roll, at least",
    "widest_cents": "the second note at most",
    "drift_cents": "the two fingerings apart by at most",
    "waves_per_s": "waves at most",
    "narrowest_cents": "a width of at least",
    "lip_down_cents": "begins below its note by",
    "room_below_cents": "needs below its note",
    "room_above_cents": "needs above its note",
}
# Facts rather than limits.
_MEASURES = ("cycles_hz", "lip_down_cents", "room_below_cents", "room_above_cents")


def explain_technique(key: str) -> str:
    """The technique as text; KeyError if there is none."""
    technique = techniques.get(key)
    rows = [*_playing(technique), *_limits(technique), *_sound(technique), *_page(technique), *_sources(technique)]
    head = f"{technique.title['en']}  ({technique.key}; {LAYER_WORDS[technique.layer]})"
    return "\n".join([head, "", *rows]) + "\n"


def _row(name: str, text: str) -> list[str]:
    return textwrap.wrap(
        text,
        _WIDTH,
        initial_indent=f"{name:<14}",
        subsequent_indent=" " * 14,
        break_long_words=False,
        break_on_hyphens=False,
    )


def _playing(technique: Technique) -> Iterator[str]:
    if technique.called:
        yield from _row("Also called", ", ".join(technique.called))
    yield from _row("Moves", technique.moves)
    moved = "" if technique.path == "none" else f"; {_PATH_WORDS[technique.path]}"
    yield from _row("Pitch", f"{_PITCH_WORDS[technique.pitched]}{moved}")
    fewest, most = technique.points
    count = f"{fewest} or more" if most is None else str(fewest) if most == fewest else f"{fewest} to {most}"
    yield from _row("Points", count)
    lines = ", ".join(_LINE_WORDS[line] for line in technique.lines) or "any"
    yield from _row("Lines", lines + ("; at least one that slides" if technique.needs_line else ""))
    if technique.kin:
        yield from _row("In its place", ", ".join(technique.kin))
    if technique.needs:
        yield from _row("Needs", NEED_WORDS[technique.needs])
    yield from _together(technique)


def _together(technique: Technique) -> Iterator[str]:
    """What it cannot be joined with, and what only with care; anything else is fine."""
    heads: tuple[tuple[str, JoinVerdict], ...] = (("With care", "with care"), ("Not with", "not"))
    for head, verdict in heads if technique.layer != "none" else ():
        rows: dict[str, list[str]] = {}
        for other, found in techniques.joined_with(technique, verdict):
            rows.setdefault(f"{found.reason.value} ({found.reason.kind.value})", []).append(other.key)
        for reason, others in rows.items():
            yield from _row(head, f"{', '.join(others)}: {reason}")


def _limits(technique: Technique) -> Iterator[str]:
    for name, limit in sorted(technique.limits.items()):
        yield from _row("Limit", _limit_words(name, limit))
    for name, factor in (("effort", technique.effort), ("air", technique.flow)):
        if factor is not None:
            yield from _row("Takes", f"{name}: {factor.value:g} times plain playing ({_evidence(factor)})")
    if technique.skill is not None:
        yield from _row("Difficulty", f"{technique.skill.value:g} of 1 by itself ({_evidence(technique.skill)})")


def _sound(technique: Technique) -> Iterator[str]:
    """The numbers that determine how it sounds, if it has any."""
    sound = technique.sound
    for name, unit, number in (
        ("breath in the tone", "%", _percent(sound.air)),
        ("waves", "a second", sound.waves_hz),
        ("vibrato to either side", "cents", sound.vibrato_cents),
        ("the sung note above, where none is written", "cents", sound.sung_cents),
        ("the share of its note", "%", _percent(sound.edge_share)),
    ):
        if number is not None:
            yield from _row("Heard", f"{name}: {number.value:g} {unit} ({_evidence(number)})")


def _percent(share: Sourced[float] | None) -> Sourced[float] | None:
    return replace(share, value=100 * share.value) if share is not None else None


def _limit_words(name: str, limit: Limit) -> str:
    narrow = f"{_LIMIT_NAMES[name]} {_value(limit.narrow.value)} {_unit(limit.unit)}".strip()
    beyond = "" if name in _MEASURES else ", beyond it with care"
    text = f"{narrow}{beyond} ({_evidence(limit.narrow)})"
    if limit.wide is not None:
        text += f"; beyond {_value(limit.wide.value)} not as written ({_evidence(limit.wide)})"
    return text


def _unit(unit: str) -> str:
    """A unit in words; levels, registers and periods already have names."""
    return {"1/s": "a second", "level": "", "register": "", "periods": ""}.get(unit, unit)


def _value(value: object) -> str:
    if isinstance(value, tuple):
        joint = ", " if value and isinstance(value[0], str) else " to "
        return joint.join(str(v) for v in value)
    return str(value)


def _evidence(sourced: Sourced[object] | Sourced[float]) -> str:
    return f"{sourced.kind.value}: {sourced.source}"


def _page(technique: Technique) -> Iterator[str]:
    look = technique.look
    printed = [f"“{look.word}”" if look.word else "", f"ended by “{look.cancel}”" if look.cancel else ""]
    printed.insert(0, f"{look.head} heads" if look.head not in ("auto", "normal") else "")
    shown = ", ".join(p for p in printed if p)
    yield from _row("Looks", f"{shown}. {look.reason}".lstrip(". "))
    yield from _row("Says", technique.texts["en"])
    if technique.caution:
        yield from _row("Care", wording.text(technique.caution, "en"))


def _sources(technique: Technique) -> Iterator[str]:
    for source in technique.sources:
        yield from _row("Source", f"{source.value} ({_evidence(source)})")
