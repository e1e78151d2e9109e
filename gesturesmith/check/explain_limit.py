"""One limit of the instruments: what it is on each of them, and on what evidence."""

from __future__ import annotations

import textwrap
from functools import cache

from gesturesmith import instruments
from gesturesmith.evidence import Limit, Sourced
from gesturesmith.units import spell

_WIDTH = 96


@cache
def limit_names() -> tuple[str, ...]:
    """The limits that any instrument has, sorted."""
    return tuple(sorted({name for key in instruments.names() for name in instruments.get(key).limits}))


def explain_limit(name: str) -> str | None:
    """The limit as text, instruments on which it is the same together; None where there is none of that name."""
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
        lines += _wrapped(f"with care beyond {_words(wanted, limit, limit.narrow)}", 2)
        if limit.wide is not None:
            lines += _wrapped(f"not as written beyond {_words(wanted, limit, limit.wide)}", 2)
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
