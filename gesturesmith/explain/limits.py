"""Explains a limit of the instruments: its value on each, and the evidence."""

from __future__ import annotations

import textwrap
from functools import cache

from gesturesmith import instruments
from gesturesmith.evidence import Kind, Limit, Sourced
from gesturesmith.kinds import Side
from gesturesmith.rules.shared.limits import FAR
from gesturesmith.units import spell

_WIDTH = 96
# The word for the uncomfortable side.
_SIDES: dict[Side, str] = {
    "above": "beyond",
    "below": "below",
    "louder": "louder than",
    "softer": "softer than",
    "outside": "outside",
    "none": "",
}
FAR_WORDS = f"{FAR:g} times a reading from practice, downward divided by as much"
CURVE = "between the middles of two registers the limit changes evenly with height"


def wrong_side(limit: Limit) -> str:
    """The word for the uncomfortable side of a limit; "" if it is only used for calculation."""
    return _SIDES[limit.side]


def refused_side(limit: Limit) -> str:
    """The word for the refused side: a reading from practice is not exact enough to refuse right beyond it."""
    measured = limit.side in ("above", "below") and limit.wide is not None and limit.wide.kind is Kind.PRACTICE
    return f"far {wrong_side(limit)}" if measured else wrong_side(limit)


@cache
def limit_names() -> tuple[str, ...]:
    """The names of all instruments' limits, sorted."""
    return tuple(sorted({name for key in instruments.names() for name in instruments.get(key).limits}))


def explain_limit(name: str) -> str | None:
    """The limit as text, with instruments of equal value together; None if there is no such limit."""
    wanted = name.strip().lower().replace("-", "_")
    if wanted not in limit_names():
        return None
    groups: dict[Limit, list[str]] = {}
    for key in instruments.names():
        instrument = instruments.get(key)
        if wanted in instrument.limits:
            groups.setdefault(instrument.limits[wanted], []).append(key)
    lines = [f"{wanted}  (a limit of instruments; a profile of your own may set it)"]
    for limit, keys in groups.items():
        everywhere = len(keys) == len(instruments.names())
        lines += ["", *_wrapped("every instrument" if everywhere else ", ".join(keys), 0)]
        side = wrong_side(limit)
        care = f"with care {side}" if side else "taken as"
        lines += _wrapped(f"{care} {_words(wanted, limit, limit.narrow)}", 2)
        if limit.wide is not None and side:
            refused = refused_side(limit)
            lines += _wrapped(f"not as written {refused} {_words(wanted, limit, limit.wide)}", 2)
    if any(" far be" in line for line in lines):
        lines += ["", *_wrapped(f"far is {FAR_WORDS}", 0)]
    if wanted.startswith("bend_"):
        lines += ["", *_wrapped(f"so in the middle of the register; {CURVE}", 0)]
    return "\n".join(lines) + "\n"


def _words(name: str, limit: Limit, reading: Sourced[object]) -> str:
    unit = "" if _is_pitch(name) or not limit.unit or limit.unit == "level" else f" {limit.unit}"
    return f"{_value(name, reading.value)}{unit} ({reading.kind.value}: {reading.source})"


def _is_pitch(name: str) -> bool:
    return name.endswith(("_lowest_cents", "_highest_cents"))


def _value(name: str, value: object) -> str:
    if isinstance(value, tuple):
        return " to ".join(_value(name, v) for v in value)
    if isinstance(value, int | float):
        return f"sounding {spell(value).name}" if _is_pitch(name) else f"{value:g}"
    return str(value)


def _wrapped(text: str, depth: int) -> list[str]:
    return textwrap.wrap(
        text,
        _WIDTH,
        initial_indent=" " * depth,
        subsequent_indent=" " * (depth + 2),
        break_long_words=False,
        break_on_hyphens=False,
    )
