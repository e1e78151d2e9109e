"""Common parts of the pages: tables, values with units, limits with evidence."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from gesturesmith.evidence import Limit, Sourced
from gesturesmith.explain.limits import refused_side, wrong_side
from gesturesmith.units import spell

MADE = "<!-- Made by docs/generate.py from the code: change the code, then run it again. -->"
LIMIT_HEAD = ("limit", "with care", "not as written", "evidence")


def cell(text: object) -> str:
    """Text for one cell of a table."""
    return str(text).replace("|", "\\|").replace("\n", " ")


def table(head: tuple[str, ...], rows: Iterable[tuple[object, ...]]) -> str:
    lines = [head, tuple("---" for _ in head), *rows]
    return "\n".join("| " + " | ".join(cell(c) for c in line) + " |" for line in lines)


def value_text(value: Any, unit: str, *, pitch: bool = False) -> str:
    """A value of a limit for people; a pitch in cents by its sounding name."""
    if isinstance(value, tuple):
        joined = ", " if unit == "register" else " to "
        return joined.join(value_text(v, "", pitch=pitch) for v in value) + value_unit(unit, pitch)
    if pitch:
        return f"sounding {spell(value).name}"
    number = f"{value:g}" if isinstance(value, int | float) else str(value)
    return number + value_unit(unit, pitch)


def value_unit(unit: str, pitch: bool) -> str:
    return "" if not unit or pitch or unit in ("level", "register") else f" {unit}"


def evidence_text(sourced: Sourced[Any]) -> str:
    return f"{sourced.kind.value}: {sourced.source}"


def limit_rows(limits: Mapping[str, Limit]) -> Iterable[tuple[object, ...]]:
    """One row per limit: name, caution beyond, refused beyond, evidence."""
    for name in sorted(limits):
        limit = limits[name]
        pitch = name.endswith(("_lowest_cents", "_highest_cents"))
        wide = limit.wide
        evidence = evidence_text(limit.narrow) + (f"; widest, {evidence_text(wide)}" if wide is not None else "")
        side = wrong_side(limit)
        narrow = value_text(limit.narrow.value, limit.unit, pitch=pitch)
        refused = "never"
        if wide is not None:
            refused = f"{refused_side(limit)} {value_text(wide.value, limit.unit, pitch=pitch)}"
        yield f"`{name}`", f"{side} {narrow}" if side else f"({narrow})", refused if side else "", evidence
