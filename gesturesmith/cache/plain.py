"""Frozen values to JSON and back, for the cache.

JSON and not pickle: a file written by somebody else can give a wrong value, but never run code. Only classes that
the reader names are created, and only with values of their fields' types.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from dataclasses import fields, is_dataclass
from enum import Enum
from fractions import Fraction
from functools import cache
from pathlib import PurePosixPath
from types import ModuleType, UnionType
from typing import Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

from gesturesmith.values import frozen


@frozen
class ValueFormat:
    """Writes and reads the given frozen dataclasses, named tuples and enums, with the usual contents.

    An object becomes an array that begins with its class; so does a tuple, to distinguish it from a list.
    """

    classes: dict[str, type[Any]]
    fields: dict[str, tuple[str, ...]]

    def dumps(self, value: object) -> bytes:
        """The value as JSON; TypeError if it cannot be written."""
        return json.dumps(self._plain(value), ensure_ascii=False, separators=(",", ":")).encode(
            "utf-8", "surrogatepass"
        )

    def loads(self, data: bytes) -> Any:
        """The value from JSON; ValueError if the data are not ours."""
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
        values = tuple(self._value(v) for v in rest)
        tests = _tests(cls, self.fields[kind])  # type: ignore[arg-type]  # a class can be a key
        for value, (name, fits) in zip(values, tests, strict=True):
            if not fits(value):
                raise TypeError(f"{kind}.{name} cannot be {value!r:.80}")
        return cls(**dict(zip(self.fields[kind], values, strict=True)))


@cache
def _tests(cls: Any, names: tuple[str, ...]) -> tuple[tuple[str, Callable[[Any], bool]], ...]:
    """For each field, the types its value must have: anybody may have written the entry, with a valid checksum."""
    own = {parameter.__name__: parameter for parameter in getattr(cls, "__type_params__", ())}
    hints = get_type_hints(cls, localns=own)
    return tuple((name, _test(hints[name])) for name in names)


def _test(hint: Any) -> Callable[[Any], bool]:
    hint = getattr(hint, "__value__", hint)  # a name for a type
    if hint is Any or isinstance(hint, TypeVar):
        return lambda value: True
    kind, parts = get_origin(hint), get_args(hint)
    if kind is Literal:
        return lambda value: isinstance(value, str) and value in parts
    if kind in (Union, UnionType):
        ways = [_test(part) for part in parts]
        return lambda value: any(way(value) for way in ways)
    if kind is Literal:
        return lambda value: type(value) is str and value in parts
    if kind is tuple and parts[-1] is Ellipsis:
        each = _test(parts[0])
        return lambda value: type(value) is tuple and all(map(each, value))
    if kind is tuple:
        tests = [_test(part) for part in parts]
        return lambda value: (
            type(value) is tuple
            and len(value) == len(tests)
            and all(test(v) for test, v in zip(tests, value, strict=True))
        )
    if kind is dict:
        key, item = _test(parts[0]), _test(parts[1])
        return lambda value: isinstance(value, dict) and all(key(k) and item(v) for k, v in value.items())
    base = kind or getattr(hint, "__supertype__", hint)
    if base is float:
        return lambda value: type(value) in (float, int)
    if base is int:
        return lambda value: type(value) is int
    return lambda value: isinstance(value, base)


def _fields(cls: type[Any]) -> tuple[str, ...]:
    """The names of the fields of a dataclass or named tuple; none for an enum."""
    named: tuple[str, ...] | None = getattr(cls, "_fields", None)
    if named is not None:
        return named
    return tuple(f.name for f in fields(cls)) if is_dataclass(cls) else ()


def value_format(classes: Iterable[type[Any]], rooms: Iterable[ModuleType] = ()) -> ValueFormat:
    """A writer and reader for these classes, and for the dataclasses, named tuples and enums of these modules.

    No two may have the same name.
    """
    found = {cls.__name__: cls for cls in classes}
    for room in rooms:
        for name, one in vars(room).items():
            if isinstance(one, type) and (is_dataclass(one) or issubclass(one, Enum) or hasattr(one, "_fields")):
                found[name] = one
    return ValueFormat(found, {name: _fields(cls) for name, cls in found.items()})
