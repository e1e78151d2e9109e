"""Frozen values as JSON and back, for what is kept between runs.

JSON and not pickle: a file that somebody else wrote can give a wrong value here, but never run anything. Only
classes that the reader names are made.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import fields, is_dataclass
from enum import Enum
from fractions import Fraction
from pathlib import PurePosixPath
from types import ModuleType
from typing import Any

from gesturesmith.values import frozen


@frozen
class Plain:
    """Writes and reads values of the given frozen dataclasses, named tuples and enums, and what they commonly hold.

    An object becomes an array that begins with its class; so does a tuple, to be told from a list.
    """

    classes: dict[str, type[Any]]
    fields: dict[str, tuple[str, ...]]

    def dumps(self, value: object) -> bytes:
        """TypeError where a value has no form here."""
        return json.dumps(self._plain(value), ensure_ascii=False, separators=(",", ":")).encode(
            "utf-8", "surrogatepass"
        )

    def loads(self, data: bytes) -> Any:
        """The value again; ValueError where the data are not ours."""
        try:
            return self._value(json.loads(data.decode("utf-8", "surrogatepass")))
        except (ValueError, TypeError, LookupError, AttributeError, ArithmeticError, RecursionError) as error:
            raise ValueError(f"not a value that was kept: {error}") from error

    def _plain(self, value: Any) -> Any:
        if value is None or isinstance(value, (str, bool, int, float)):
            return value
        if type(value) in (tuple, list):
            return ["()" if type(value) is tuple else "[]", *(self._plain(v) for v in value)]
        if isinstance(value, dict):
            return ["{}", *([self._plain(k), self._plain(v)] for k, v in value.items())]
        if isinstance(value, Fraction):
            return ["/", value.numerator, value.denominator]
        if isinstance(value, PurePosixPath):
            return ["path", str(value)]
        name = type(value).__name__
        if self.classes.get(name) is not type(value):
            raise TypeError(f"no form to keep {value!r}")
        if isinstance(value, Enum):
            return [name, value.value]
        return [name, *(self._plain(getattr(value, field)) for field in self.fields[name])]

    def _value(self, data: Any) -> Any:
        if not isinstance(data, list):
            return data
        kind, *rest = data
        if kind == "()":
            return tuple(self._value(v) for v in rest)
        if kind == "[]":
            return [self._value(v) for v in rest]
        if kind == "{}":
            return {self._value(k): self._value(v) for k, v in rest}
        if kind == "/":
            return Fraction(*rest)
        if kind == "path":
            return PurePosixPath(*rest)
        cls = self.classes[kind]
        if issubclass(cls, Enum):
            return cls(*rest)
        return cls(**dict(zip(self.fields[kind], (self._value(v) for v in rest), strict=True)))


def _fields(cls: type[Any]) -> tuple[str, ...]:
    """The names of the fields of a dataclass or a named tuple; none of an enum."""
    named: tuple[str, ...] | None = getattr(cls, "_fields", None)
    if named is not None:
        return named
    return tuple(f.name for f in fields(cls)) if is_dataclass(cls) else ()


def plain(classes: Iterable[type[Any]], rooms: Iterable[ModuleType] = ()) -> Plain:
    """A writer and reader for these classes, and for the dataclasses, named tuples and enums of these modules.

    No two may have one name.
    """
    found = {cls.__name__: cls for cls in classes}
    for room in rooms:
        for name, one in vars(room).items():
            if isinstance(one, type) and (is_dataclass(one) or issubclass(one, Enum) or hasattr(one, "_fields")):
                found[name] = one
    return Plain(found, {name: _fields(cls) for name, cls in found.items()})
