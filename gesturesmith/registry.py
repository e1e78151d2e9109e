"""Things found by file name: techniques, instruments, rules, kinds of page, output formats.

A name with hyphens is a module with underscores: `harmonic-gliss` is `harmonic_gliss.py`. A module is imported on
use; `names` lists a folder without importing anything from it.
"""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache
from types import ModuleType


@cache
def names(package: str) -> tuple[str, ...]:
    """The names in `package` (such as "gesturesmith.techniques"), sorted, without importing any module."""
    paths = importlib.import_module(package).__path__
    found = (m.name for m in pkgutil.iter_modules(paths) if not m.ispkg)
    return tuple(sorted(n.replace("_", "-") for n in found if n != "base" and not n.startswith("_")))


@cache
def module(package: str, name: str) -> ModuleType:
    """The module of `name`; KeyError if there is none."""
    if name not in names(package):
        raise KeyError(name)
    return importlib.import_module(f"{package}.{name.replace('-', '_')}")
