"""A limit is explained from the side that the rules check."""

from __future__ import annotations

import importlib
import json
import pkgutil
from pathlib import Path

import pytest
from rules.checking import checked

from gesturesmith import instruments, rules
from gesturesmith.instruments.profile import load
from gesturesmith.rules import all_rules
from gesturesmith.rules.shared import limits
from gesturesmith.rules.shared.doc import sections

TABLES = Path(__file__).parents[1] / "rules"
HORN = instruments.get("horn")
SIDES = ("above", "below", "louder", "softer")


@pytest.fixture
def measured(monkeypatch):
    """The limits that rules compare with, by the function used, in order of use."""
    seen: dict[str, set] = {side: set() for side in SIDES}

    def watched(side):
        own = getattr(limits, side)

        def call(limit, value):
            if limit is not None:
                seen[side].add(limit)
            return own(limit, value)

        return call

    for found in pkgutil.walk_packages(rules.__path__, "gesturesmith.rules."):
        module = importlib.import_module(found.name)
        for side in SIDES:
            if module is not limits and hasattr(module, side):
                monkeypatch.setattr(module, side, watched(side))
    return seen


def all_texts():
    """The examples of every rule, and the gestures in the tables of findings."""
    for rule in all_rules():
        yield from (sections(rule.doc)[example] for example in ("Fires", "Passes"))
    for path in sorted(TABLES.glob("test_said_of_*.py")):
        rows = getattr(importlib.import_module(f"rules.{path.stem}"), "ROWS", ())
        yield from (row.marked.replace("«", "").replace("»", "") for row in rows)


def test_what_the_rules_measure_has_that_side(measured):
    """And the explanation and the handbook describe that side."""
    for text in all_texts():
        checked(text)
    assert len(measured["above"]) > 20
    assert len(measured["below"]) > 10
    assert measured["louder"]
    assert measured["softer"]
    for side, found in measured.items():
        assert {limit.side for limit in found} == {side}


def test_a_limit_of_a_profile_keeps_its_side(tmp_path):
    path = tmp_path / "mine.toml"
    names = {
        "mute_change_s": "below",
        "softest_top": "softer",
        "single_tongue_per_s_low": "above",
        "rest_ratio": "none",
    }
    rows = "\n".join(
        f'{name} = {{ narrow = {json.dumps(HORN.limits[name].narrow.value)}, kind = "house", source = "tried" }}'
        for name in names
    )
    path.write_text(f'instrument_profile = 1\nbased_on = "horn"\nkey = "mine"\n[limits]\n{rows}\n', "utf-8")
    own, errors = load(path)
    assert errors == ()
    assert {name: own.limits[name].side for name in names} == names
