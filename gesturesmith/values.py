"""Frozen values: dataclasses that are cheap to define.

`check` defines about a hundred of them at every start, and most of the cost of `dataclass(frozen=True)` is
compiling methods for each class. Here only `__init__` is compiled; all classes share the other methods.
`dataclasses.fields`, `replace` and `is_dataclass` work as usual. Measured on CPython 3.12: 0.2 ms a class instead
of 0.65.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import MISSING, FrozenInstanceError, dataclass, field, fields
from types import MappingProxyType
from typing import Any, dataclass_transform, overload

_UNCOUNTED = "makes no difference because"


def _values(self: Any) -> tuple[Any, ...]:
    return tuple([getattr(self, name) for name in self.__match_args__ + self.__keyword_fields__])


def _eq(self: Any, other: Any) -> bool:
    if other.__class__ is not self.__class__:
        return NotImplemented  # type: ignore[no-any-return]
    for name in self.__match_args__ + self.__keyword_fields__:  # most differ in the first field
        one, two = getattr(self, name), getattr(other, name)
        if one is not two and one != two:
            return False
    return True


def _hash(self: Any) -> int:
    return hash(_values(self))


def _repr(self: Any) -> str:
    inside = ", ".join(f"{f.name}={getattr(self, f.name)!r}" for f in fields(self))
    return f"{self.__class__.__qualname__}({inside})"


def _setattr(self: Any, name: str, value: object) -> None:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _delattr(self: Any, name: str) -> None:
    raise FrozenInstanceError(f"cannot delete field {name!r}")


def _reduce(self: Any) -> tuple[Any, ...]:
    state = {f.name: getattr(self, f.name) for f in fields(self)}
    # A mapping proxy cannot be copied or pickled.
    held = {name: dict(value) if type(value) is MappingProxyType else value for name, value in state.items()}
    return _restored, (self.__class__, held)


def _restored(cls: type[Any], state: dict[str, Any]) -> Any:
    return cls(**state)


def _read_only[K, V](value: Mapping[K, V]) -> Mapping[K, V]:
    """A read-only view of a mapping."""
    return MappingProxyType(value) if isinstance(value, dict) else value


def _init(cls: type[Any]) -> Callable[..., None]:
    """The only compiled method: stores the fields in their slots."""
    scope: dict[str, Any] = {"MISSING": MISSING, "read_only": _read_only}
    positional: list[str] = []
    keyword: list[str] = []
    body: list[str] = []
    for one in fields(cls):
        name, value = one.name, one.name
        asked = name
        if one.default is not MISSING:
            scope[f"default_{name}"] = one.default
            asked = f"{name}=default_{name}"
        elif one.default_factory is not MISSING:
            scope[f"make_{name}"] = one.default_factory
            asked, value = f"{name}=MISSING", f"make_{name}() if {name} is MISSING else {name}"
        if str(one.type).startswith("Mapping["):
            value = f"read_only({value})"
        (keyword if one.kw_only else positional).append(asked)
        scope[f"put_{name}"] = getattr(cls, name).__set__  # of its slot: three times as fast as object.__setattr__
        body.append(f" put_{name}(self, {value})")
    if hasattr(cls, "__post_init__"):
        body.append(" self.__post_init__()")
    arguments = ", ".join(["self", *positional, *(["*", *keyword] if keyword else [])])
    exec(f"def __init__({arguments}):\n" + "\n".join(body or [" pass"]), scope)
    made: Callable[..., None] = scope["__init__"]
    made.__qualname__ = f"{cls.__qualname__}.__init__"
    return made


def uncounted(reason: str) -> dict[str, str]:
    """Field metadata: why the field is not part of cache keys made from its value."""
    return {_UNCOUNTED: reason}


def counted(value: object) -> tuple[str, ...]:
    """The parts of a frozen value that belong in a key: every field that does not say why it is excluded."""
    return tuple(
        f"{f.name}={getattr(value, f.name)!r}"
        for f in fields(value)  # type: ignore[arg-type]  # our values are dataclasses
        if _UNCOUNTED not in f.metadata
    )


@overload
def frozen[T](cls: type[T], /) -> type[T]: ...
@overload
def frozen[T](*, kw_only: bool = False) -> Callable[[type[T]], type[T]]: ...
@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(cls: type[Any] | None = None, /, *, kw_only: bool = False) -> Any:
    """Make a class a frozen dataclass with slots, compared and hashed by its fields."""

    def make(cls: type[Any]) -> type[Any]:
        made = dataclass(init=False, repr=False, eq=False, slots=True, kw_only=kw_only)(cls)
        shared: dict[str, Any] = {"__eq__": _eq, "__hash__": _hash, "__repr__": _repr, "__reduce__": _reduce}
        for name, method in shared.items():
            if name not in cls.__dict__:
                setattr(made, name, method)
        always: dict[str, Any] = {
            "__keyword_fields__": tuple(f.name for f in fields(made) if f.kw_only),
            "__init__": _init(made),
            "__setattr__": _setattr,
            "__delattr__": _delattr,
        }
        for name, method in always.items():
            setattr(made, name, method)
        return made

    return make if cls is None else make(cls)
