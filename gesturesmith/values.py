"""Frozen values: dataclasses that are cheap to define.

`check` defines more than a hundred of them at every start, and most of the cost of `dataclass(frozen=True)` is
compiling methods for each class. Here only `__init__` is compiled, when the first value is made; all classes share
the other methods. `dataclasses.fields`, `replace` and `is_dataclass` work as usual: what they look at is made when
they ask.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, field, fields
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
    defaults = cls.__frozen_defaults__
    for name, kind in cls.__frozen_fields__.items():
        asked = value = name
        given = defaults.get(name, MISSING)
        default, factory = (given.default, given.default_factory) if isinstance(given, Field) else (given, MISSING)
        if default is not MISSING:
            scope[f"default_{name}"] = default
            asked = f"{name}=default_{name}"
        elif factory is not MISSING:
            scope[f"make_{name}"] = factory
            asked, value = f"{name}=MISSING", f"make_{name}() if {name} is MISSING else {name}"
        if str(kind).startswith("Mapping["):
            value = f"read_only({value})"
        (keyword if cls.__keyword_fields__ else positional).append(asked)
        scope[f"put_{name}"] = getattr(cls, name).__set__  # of its slot: three times as fast as object.__setattr__
        body.append(f" put_{name}(self, {value})")
    if hasattr(cls, "__post_init__"):
        body.append(" self.__post_init__()")
    arguments = ", ".join(["self", *positional, *(["*", *keyword] if keyword else [])])
    exec(f"def __init__({arguments}):\n" + "\n".join(body or [" pass"]), scope)
    made: Callable[..., None] = scope["__init__"]
    made.__qualname__ = f"{cls.__qualname__}.__init__"
    return made


def _first(cls: type[Any]) -> Callable[..., None]:
    """An `__init__` that compiles the real one, and takes its place."""

    def __init__(self: Any, *positional: Any, **keyword: Any) -> None:  # noqa: N807
        cls.__init__ = made = _init(cls)
        made(self, *positional, **keyword)

    return __init__


class _OnDemand:
    """An attribute of a class that is made when it is first asked for."""

    def __init__(self, name: str, make: Callable[[type[Any]], Any]) -> None:
        self._name = name
        self._make = make

    def __get__(self, one: Any, cls: type[Any]) -> Any:
        made = self._make(cls)
        setattr(cls, self._name, made)
        return made


def _fields_of(cls: type[Any]) -> dict[str, Any]:
    """What the functions of `dataclasses` look at."""
    space = {"__annotations__": cls.__frozen_fields__, "__module__": cls.__module__, **cls.__frozen_defaults__}
    plain: Any = dataclass(init=False, repr=False, eq=False, kw_only=bool(cls.__keyword_fields__))
    found: dict[str, Any] = plain(type(cls.__name__, (), space)).__dataclass_fields__
    return found


def _signature_of(cls: type[Any]) -> Any:
    from inspect import signature  # for tools that read code

    whole = signature(_init(cls))
    return whole.replace(parameters=tuple(whole.parameters.values())[1:])


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
        space = {k: v for k, v in cls.__dict__.items() if k not in ("__dict__", "__weakref__")}
        kinds = space.get("__annotations__", {})
        names = tuple(kinds)
        shared: dict[str, Any] = {"__eq__": _eq, "__hash__": _hash, "__repr__": _repr, "__reduce__": _reduce}
        space = {
            **{name: method for name, method in shared.items() if name not in space},
            **space,
            "__frozen_fields__": kinds,
            "__frozen_defaults__": {name: space.pop(name) for name in names if name in space},
            "__slots__": names,
            "__match_args__": () if kw_only else names,
            "__keyword_fields__": names if kw_only else (),
            "__setattr__": _setattr,
            "__delattr__": _delattr,
            "__dataclass_fields__": _OnDemand("__dataclass_fields__", _fields_of),
            "__signature__": _OnDemand("__signature__", _signature_of),
        }
        for name in names:
            space.pop(name, None)
        made: Any = type(cls)(cls.__name__, cls.__bases__, space)  # type: ignore[misc]  # its own, mostly `type`
        made.__qualname__ = cls.__qualname__
        made.__init__ = _first(made)
        return made  # type: ignore[no-any-return]

    return make if cls is None else make(cls)
