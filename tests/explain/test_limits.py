"""A limit is explained from the side on which the rules measure it."""

from __future__ import annotations

import importlib
import pkgutil
from pathlib import Path

import pytest
from rules.checking import checked

from gesturesmith import instruments, rules, techniques
from gesturesmith.explain.limits import wrong_side
from gesturesmith.rules import all_rules
from gesturesmith.rules.shared import limits
from gesturesmith.rules.shared.doc import sections

TABLES = Path(__file__).parents[1] / "rules"
SIDES = {"above": ("beyond", "louder than"), "below": ("below", "softer than")}


def names_of_limits() -> dict[int, str]:
    """What each limit is called, by its identity: rules are handed the limit and not its name."""
    owners = [instruments.get(n) for n in instruments.names()] + [techniques.get(n) for n in techniques.names()]
    return {id(limit): name for owner in owners for name, limit in owner.limits.items()}


@pytest.fixture
def measured(monkeypatch):
    """Names of the limits the rules measure against, by the function they do it with, as they come."""
    names = names_of_limits()
    seen: dict[str, set[str]] = {side: set() for side in SIDES}

    def watched(side):
        own = getattr(limits, side)

        def call(limit, value):
            if id(limit) in names:
                seen[side].add(names[id(limit)])
            return own(limit, value)

        return call

    for found in pkgutil.walk_packages(rules.__path__, "gesturesmith.rules."):
        module = importlib.import_module(found.name)
        for side in SIDES:
            if module is not limits and hasattr(module, side):
                monkeypatch.setattr(module, side, watched(side))
    return seen


def all_texts():
    """The examples of every rule, and the gestures of the tables of what rules say."""
    for rule in all_rules():
        yield from (sections(rule.doc)[example] for example in ("Fires", "Passes"))
    for path in sorted(TABLES.glob("test_said_of_*.py")):
        rows = getattr(importlib.import_module(f"rules.{path.stem}"), "ROWS", ())
        yield from (row.marked.replace("«", "").replace("»", "") for row in rows)


def test_what_the_rules_measure_is_explained_from_that_side(measured):
    for text in all_texts():
        checked(text)
    assert len(measured["above"]) > 20
    assert len(measured["below"]) > 10
    for side, names in measured.items():
        for name in names:
            assert wrong_side(name) in SIDES[side], f"{name} is measured with `{side}`"
