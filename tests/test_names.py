"""One name for one thing: what a class is called, nothing else in the package is called."""

from __future__ import annotations

import ast
from collections import defaultdict
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "gesturesmith"


def defined_twice(texts: dict[str, str]) -> dict[str, list[str]]:
    """Class names with the modules that define them, where there are several; `_Text` counts as `Text`."""
    found: defaultdict[str, list[str]] = defaultdict(list)
    for module, text in texts.items():
        for node in ast.walk(ast.parse(text)):
            if isinstance(node, ast.ClassDef):
                found[node.name.lstrip("_")].append(module)
    return {name: modules for name, modules in found.items() if len(modules) > 1}


def test_no_class_name_is_defined_twice():
    texts = {str(path.relative_to(PACKAGE)): path.read_text("utf-8") for path in sorted(PACKAGE.rglob("*.py"))}
    assert defined_twice(texts) == {}


@pytest.mark.parametrize("other", ["class Line: ...", "class _Line: ...", "def f():\n    class Line: ..."])
def test_a_name_that_is_defined_twice_is_seen(other):
    assert defined_twice({"a.py": "class Line: ...", "b.py": other}) == {"Line": ["a.py", "b.py"]}
