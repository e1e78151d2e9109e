"""Examples in docstrings do what they show."""

from __future__ import annotations

import doctest
import importlib
from pathlib import Path

import pytest
from api.texts import CALL, HIGH

import gesturesmith

ROOT = Path(__file__).parent.parent
SHOWN = sorted(
    str(path.relative_to(ROOT).with_suffix("")).replace("/", ".").removesuffix(".__init__")
    for path in (ROOT / "gesturesmith").rglob("*.py")
    if ">>>" in path.read_text("utf-8")
)


@pytest.mark.parametrize("module", SHOWN)
def test_an_example_shows_what_happens(module):
    names = {"gesturesmith": gesturesmith, "text": CALL, "high": HIGH}
    result = doctest.testmod(importlib.import_module(module), extraglobs=names)
    assert result.attempted
    assert not result.failed
