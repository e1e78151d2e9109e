"""Frozen values behave like the standard library's frozen dataclasses, compared with one."""

from __future__ import annotations

import dataclasses
import inspect
import pickle
from collections.abc import Mapping
from typing import Any

import pytest

from gesturesmith.values import frozen


@frozen
class Ours:
    a: int
    b: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.a < 0:
            raise ValueError("a")


@dataclasses.dataclass(frozen=True, slots=True)
class Theirs:
    a: int
    b: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.a < 0:
            raise ValueError("a")


@frozen(kw_only=True)
class Keyword:
    a: int
    made: dict[str, int] = dataclasses.field(default_factory=dict)


@pytest.mark.parametrize("cls", [Ours, Theirs])
def test_as_a_frozen_dataclass(cls: Any) -> None:
    one = cls(1, ("x",))
    assert one == cls(a=1, b=("x",))
    assert one != cls(2, ("x",))
    assert hash(one) == hash(cls(1, ("x",)))
    assert repr(one).endswith("(a=1, b=('x',))")
    assert dataclasses.replace(one, a=3) == cls(3, ("x",))
    assert [f.name for f in dataclasses.fields(one)] == ["a", "b"]
    assert pickle.loads(pickle.dumps(one)) == one
    for wrong in (lambda: cls(), lambda: cls(1, (), 2), lambda: cls(1, c=2)):
        with pytest.raises(TypeError):
            wrong()
    with pytest.raises(dataclasses.FrozenInstanceError):
        one.a = 2
    with pytest.raises(dataclasses.FrozenInstanceError):
        del one.a
    with pytest.raises(ValueError, match="a"):
        cls(-1)
    assert not hasattr(one, "__dict__")


def test_what_tools_look_at_is_made_when_they_ask() -> None:
    """The fields before a value is made, and the signature before and after."""

    @frozen(kw_only=True)
    class Late:
        a: int
        b: tuple[str, ...] = dataclasses.field(default=(), metadata={"x": 1})

    before = inspect.signature(Late)
    assert [(f.name, f.kw_only, dict(f.metadata)) for f in dataclasses.fields(Late)] == [
        ("a", True, {}),
        ("b", True, {"x": 1}),
    ]
    assert Late(a=1).b == ()
    assert inspect.signature(Late) == before
    assert list(before.parameters) == ["a", "b"]
    assert list(inspect.signature(Ours).parameters) == list(inspect.signature(Theirs).parameters)


def test_of_another_class_it_is_unequal() -> None:
    assert Ours(1) != Theirs(1)


def test_keyword_only_and_factories() -> None:
    assert Keyword(a=1).made == {}
    assert Keyword(a=1).made is not Keyword(a=1).made
    with pytest.raises(TypeError):
        Keyword(1)  # type: ignore[misc]


@frozen
class Held:
    by_name: Mapping[str, int] = dataclasses.field(default_factory=dict)


def test_a_mapping_in_a_value_cannot_be_filled() -> None:
    one = Held({"a": 1})
    for value in (one, Held(), dataclasses.replace(one), pickle.loads(pickle.dumps(one))):
        with pytest.raises(TypeError):
            value.by_name["b"] = 2  # type: ignore[index]
    assert one == Held({"a": 1}) == pickle.loads(pickle.dumps(one))
    assert dict(one.by_name) == {"a": 1}
