"""Reads single values of a profile: each is valid or gives an error with its line, key and what is allowed."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping
from typing import Any

from gesturesmith.evidence import PLAYER, PRACTICE, Kind, Limit, Sourced
from gesturesmith.instruments._build import cents
from gesturesmith.instruments.profile.file import ProfileError
from gesturesmith.kinds import one_of
from gesturesmith.units import UNISON, Interval, interval

OWN = "the profile"  # the source of a profile's values if it names none
_KINDS = tuple(kind.value for kind in Kind)
_REFUSING = ", ".join(kind.value for kind in Kind if kind.may_refuse)
_PITCH = "a pitch such as F#2"
MAX_TEXT_LENGTH = 200
ABSURD = 20  # a limit this many times larger or smaller than the usual one is a mistake
MAX_ERRORS = 100  # per profile; a file with more is not a profile
_NAMES_SHOWN = 20  # allowed names shown if none is close


class Table:
    """One table of a profile with the line of each key; errors go to a list shared by all tables."""

    def __init__(
        self,
        values: Mapping[str, Any],
        path: tuple[str, ...],
        lines: Mapping[tuple[str, ...], int],
        errors: list[ProfileError],
        owner: str = "",
    ) -> None:
        self.values, self.path, self.lines, self.errors, self.owner = values, path, lines, errors, owner

    @property
    def full(self) -> bool:
        """Whether no more errors are recorded."""
        return len(self.errors) > MAX_ERRORS

    def error(self, key: str, problem: str, allowed: str = "") -> None:
        """Record an error of a key of this table; after `MAX_ERRORS` only that there are more."""
        if self.full:
            return
        if len(self.errors) == MAX_ERRORS:
            last = max(self.lines.values(), default=0)  # so that it comes last
            self.errors.append(ProfileError(last, "", "there are more errors: fix these first"))
            return
        path = (*self.path, key) if key else self.path
        line = next((self.lines[path[:i]] for i in range(len(path), 0, -1) if path[:i] in self.lines), 0)
        name = ".".join(p for p in path if not p.isdigit())
        self.errors.append(ProfileError(line, name, problem, allowed))

    def known(self, keys: Iterable[str]) -> None:
        """Record an error for each key not in `keys`."""
        allowed = sorted(keys)
        for key in self.values:
            if key not in allowed and not self.full:
                near = difflib.get_close_matches(key, allowed, 3)
                few = near or allowed[:_NAMES_SHOWN]
                self.error(
                    key,
                    "unknown key",
                    ", ".join(few) + ("" if len(few) >= len(allowed) or near else " ..."),
                )

    def table(self, key: str) -> Table:
        """A table inside this one; empty, after an error, if it is something else."""
        value = self.values.get(key, {})
        if not isinstance(value, dict):
            self.error(key, "this is a table", "key = value, in braces or under a heading in brackets")
            value = {}
        return Table(value, (*self.path, key), self.lines, self.errors, self.owner)

    def tables(self, key: str) -> list[Table]:
        """The tables of an array, `[[key]]`."""
        value = self.values.get(key, [])
        if not isinstance(value, list) or not all(isinstance(v, dict) for v in value):
            self.error(key, "this is an array of tables", f"[[{key}]]")
            return []
        return [
            Table(v, (*self.path, key, str(i)), self.lines, self.errors, self.owner) for i, v in enumerate(value)
        ]

    def text(self, key: str, default: str | None, allowed: Iterable[str] = ()) -> str:
        """A text of at most 200 characters without control characters; one of `allowed`, if given."""
        options = tuple(allowed)
        what = ", ".join(options) or f"a text in quotes, up to {MAX_TEXT_LENGTH} characters"
        value = self.values.get(key, default)
        if value is None:
            self.error(key, "this is missing", what)
            return ""
        if not isinstance(value, str) or len(value) > MAX_TEXT_LENGTH or not (value.isprintable()):
            self.error(key, "not a printable text", what)
            return ""
        if options and value not in options:
            self.error(key, "unknown value", what)
            return ""
        return value

    def one_of[W: str](self, key: str, default: W, allowed: tuple[W, ...]) -> W:
        """One of a fixed set of words; `default`, after an error, for anything else."""
        found = self.text(key, default, allowed)
        return one_of(allowed, found) if found else default

    def flag(self, key: str, default: bool) -> bool:
        value = self.values.get(key, default)
        if not isinstance(value, bool):
            self.error(key, "must be true or false", "true, false")
            return default
        return value

    def whole(self, key: str, default: int | None, low: int, high: int) -> int:
        """A whole number from `low` to `high`."""
        value = self.values.get(key, default)
        if value is None:
            self.error(key, "this is missing", f"a whole number from {low} to {high}")
            return low
        if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
            self.error(key, "out of range", f"a whole number from {low} to {high}")
            return low
        return value

    def wholes(self, key: str, count: tuple[int, int], low: int, high: int) -> tuple[int, ...]:
        """A list of whole numbers; `count` gives the fewest and most allowed."""
        value = self.values.get(key, [])
        right = isinstance(value, list) and count[0] <= len(value) <= count[1]
        if not right or any(isinstance(v, bool) or not isinstance(v, int) or not low <= v <= high for v in value):
            many = str(count[0]) if count[0] == count[1] else f"{count[0]} to {count[1]}"
            self.error(key, "out of range", f"{many} whole numbers from {low} to {high} in brackets")
            return ()
        return tuple(value)

    def pitch(self, key: str, default: str | None = None) -> str:
        """The name of a tempered pitch; "C4", after an error, for anything else."""
        value = self.values.get(key, default)
        if not is_pitch(value):
            self.error(key, "this is missing" if value is None else "not a pitch", _PITCH)
            return "C4"
        return str(value)

    def evidence[T](self, value: T, prefix: str = "") -> Sourced[T]:
        """A value with the kind and source given by this table, or by default those of the profile.

        In the file of a player every source begins with the player's name and the kind is `player`; older files
        call it `practice`.
        """
        if self.owner:
            self.text(f"{prefix}kind", PLAYER.value, (PLAYER.value, PRACTICE.value))
            source = self.text(f"{prefix}source", "")
            return Sourced(value, PLAYER, ": ".join(part for part in (self.owner, source) if part))
        kind = self.text(f"{prefix}kind", PRACTICE.value, _KINDS) or PRACTICE.value
        return Sourced(value, Kind(kind), self.text(f"{prefix}source", OWN))

    def limit(self, like: Any, base: Limit | None = None) -> Limit | None:
        """A limit with narrow and wide reading, of the same type and similar size as `like`; None after an error.

        Without a wide reading that of `base` stays, unless the new narrow one is beyond it.
        """
        before = len(self.errors)
        self.known({"narrow", "kind", "source", "wide", "wide_kind", "wide_source", "wide_means", "unit"})
        if "narrow" not in self.values:
            self.error("narrow", "this is missing", sort_of(like))
            return None
        for key in ("narrow", "wide"):
            if key in self.values and not _same_sort(self.values[key], like):
                self.error(key, "not a valid value", sort_of(like))
        narrow = self.evidence(_frozen(self.values["narrow"]))
        if "wide" in self.values:
            wide: Sourced[Any] | None = self.evidence(_frozen(self.values["wide"]), "wide_")
        else:
            wide = _still_wide(narrow.value, base) if len(self.errors) == before else None
        if wide is not None and not wide.kind.may_refuse:
            self.error(
                "wide_kind",
                "a value of this kind may not refuse",
                _REFUSING,
            )
        unit = self.text("unit", "")
        means = self.text("wide_means", base.wide_means if base is not None and wide is base.wide else "")
        return Limit(narrow, wide, unit, means) if len(self.errors) == before else None


def is_pitch(value: object) -> bool:
    """Whether a value is the name of a tempered pitch."""
    try:
        cents(value)  # type: ignore[arg-type]
    except (ValueError, TypeError):
        return False
    return True


def interval_named(name: str) -> Interval | None:
    """The interval called "P5 down", "M2 up" or "unison", or None."""
    if name == "unison":
        return UNISON
    size, _, way = name.partition(" ")
    found = interval(size)
    if found is None or way not in ("up", "down"):
        return None
    return found if way == "up" else -found


def sort_of(like: Any) -> str:
    """What is allowed in place of a value like this, in words."""
    if isinstance(like, tuple):
        low, high = (_round(e) for e in (like[0] / ABSURD, like[1] * ABSURD))
        return f"two numbers from {low} to {high} in brackets, the lower first"
    if isinstance(like, str):
        return "a dynamic level from ppp to fff"
    return f"a number from {_round(like / ABSURD)} to {_round(like * ABSURD)}"


def _round(value: float) -> str:
    return f"{value:.2g}" if value < 100 else f"{value:.0f}"


def _same_sort(value: object, like: Any) -> bool:
    if isinstance(like, tuple):
        if not isinstance(value, list) or len(value) != 2:
            return False
        return all(_near(v, low) for v, low in zip(value, like, strict=True)) and value[0] < value[1]
    if isinstance(like, str):
        return value in ("ppp", "pp", "p", "mp", "mf", "f", "ff", "fff")
    return _near(value, like)


def _near(value: object, like: float) -> bool:
    """Whether a number is of similar size to another: not a quantity in the wrong unit, nor a slip."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return False
    return like / ABSURD <= value <= like * ABSURD


def _still_wide(narrow: Any, base: Limit | None) -> Sourced[Any] | None:
    """The wide reading of `base`, if `narrow` is still on the same side of it."""
    if base is None or base.wide is None or isinstance(narrow, tuple | str):
        return None
    before, wide = base.narrow.value, base.wide.value
    fits = narrow <= wide if before < wide else narrow >= wide if before > wide else narrow == wide
    return base.wide if fits else None


def _frozen(value: Any) -> Any:
    return tuple(value) if isinstance(value, list) else value
