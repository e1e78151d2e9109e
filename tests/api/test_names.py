"""The public interface: listed in one place, typed, documented with tested examples, frozen, and quick to
import."""

from __future__ import annotations

import ast
import doctest
import inspect
import pickle
import sys
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from enum import Enum
from pathlib import Path

import pytest
import timing
from api.texts import CALL, HIGH

import gesturesmith

NAMES = [name for name in gesturesmith.__all__ if name != "__version__"]
FUNCTIONS = [name for name in NAMES if inspect.isfunction(getattr(gesturesmith, name))]
DEMO = Path(__file__).parents[2] / "docs" / "demo" / "fog-signals.gesture"


@pytest.mark.parametrize("name", NAMES)
def test_it_is_documented_and_its_example_runs(name):
    thing = getattr(gesturesmith, name)
    names = {"gesturesmith": gesturesmith, "text": CALL, "high": HIGH}
    finder = doctest.DocTestFinder(recurse=False)
    (test,) = finder.find(thing, name, globs=names)
    assert test.examples, "no example"
    said: list[str] = []
    assert doctest.DocTestRunner().run(test, out=said.append).failed == 0, "".join(said)


@pytest.mark.parametrize("name", FUNCTIONS)
def test_what_a_function_takes_and_gives_has_a_type(name):
    signature = inspect.signature(getattr(gesturesmith, name))
    assert signature.return_annotation not in (inspect.Signature.empty, "Any")
    for parameter in signature.parameters.values():
        assert parameter.annotation not in (inspect.Parameter.empty, "Any")


@pytest.mark.parametrize("name", FUNCTIONS)
def test_every_option_of_a_function_is_explained(name):
    """By itself or by reference to another function."""
    function = getattr(gesturesmith, name)
    said = function.__doc__ + gesturesmith.read.__doc__ * ("for `read`" in function.__doc__)
    said += gesturesmith.engrave.__doc__ * ("for `engrave`" in function.__doc__)
    missing = [p for p in inspect.signature(function).parameters if p not in said.replace("Reports", "reports")]
    assert missing == []


def test_the_names_for_typing_are_those_there_are():
    tree = ast.parse(Path(gesturesmith.__file__).read_text("utf-8"))
    imported = [alias.name for n in ast.walk(tree) if isinstance(n, ast.ImportFrom) for alias in n.names]
    assert {*imported} - {"annotations", "TYPE_CHECKING", "Any", "import_module"} == {*gesturesmith.__all__}
    assert gesturesmith.__all__ == sorted(gesturesmith.__all__)
    assert {*gesturesmith.__all__} <= {*dir(gesturesmith)}


def test_what_is_not_there_is_no_attribute():
    with pytest.raises(AttributeError, match="'gesturesmith' has no attribute 'nonsense'"):
        gesturesmith.nonsense  # noqa: B018


def test_no_room_has_the_name_of_a_function():
    """Python would replace the function by the package once that is imported."""
    rooms = {path.stem for path in Path(gesturesmith.__file__).parent.iterdir()}
    assert rooms & {*gesturesmith.__all__} == set()
    assert len(FUNCTIONS) == 8


def mutable(value: object, path: str, seen: set[int]) -> Iterator[str]:
    """The places where a value contains something mutable."""
    if id(value) in seen or isinstance(value, Enum):
        return
    seen.add(id(value))
    if isinstance(value, dict | list | set | bytearray):
        yield path
    elif is_dataclass(value):
        for one in fields(value):
            yield from mutable(getattr(value, one.name), f"{type(value).__name__}.{one.name}", seen)
    elif isinstance(value, tuple):
        for one in value:
            yield from mutable(one, path, seen)


def test_nothing_that_is_given_can_be_changed():
    text = DEMO.read_text("utf-8") + "\ngesture wrong\n  conture: C5\n"
    for function in (gesturesmith.read, gesturesmith.check, gesturesmith.suggest, gesturesmith.engrave):
        assert [*mutable(function(text), "", set())] == []
    assert [*mutable(gesturesmith.render(text, "ily"), "", set())] == []


@pytest.mark.parametrize("function", ["read", "check", "suggest", "engrave"])
def test_a_value_can_be_sent_elsewhere(function):
    value = getattr(gesturesmith, function)(CALL)
    assert pickle.loads(pickle.dumps(value)) == value == getattr(gesturesmith, function)(CALL)


def test_a_report_is_hashed_by_what_it_says():
    assert len({gesturesmith.check(CALL), gesturesmith.check(CALL), gesturesmith.check(HIGH)}) == 2


LOADED = "import gesturesmith, sys; {}; print(*sys.modules, sep='\\n')"


def loaded(what: str) -> set[str]:
    done = timing.run([sys.executable, "-c", LOADED.format(what)], text=True)
    assert done.returncode == 0, done.stderr
    return set(done.stdout.split("\n"))


def test_to_import_it_imports_next_to_nothing():
    modules = loaded("pass")
    assert {name for name in modules if name.startswith("gesturesmith")} == {"gesturesmith", "gesturesmith.version"}
    assert "typing" not in modules


@pytest.mark.parametrize("function", ["check", "suggest", "read"])
def test_to_check_imports_no_engraving(function):
    modules = loaded(f"print(gesturesmith.{function}({CALL!r}).source.name)")
    assert "gesturesmith.api" in modules
    rooms = {"abjad", "gesturesmith.score", "gesturesmith.backends", "gesturesmith.sheets"}
    assert (rooms | {"gesturesmith.lilypond", "gesturesmith.writers", "subprocess", "json"}) & modules == set()
