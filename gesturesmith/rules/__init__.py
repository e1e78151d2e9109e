"""The rules, one file each, found by file name."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

from gesturesmith import registry
from gesturesmith.rules.base import Rule
from gesturesmith.rules.shared.doc import missing

_CODE = re.compile(r"GS[2-7][0-9][0-9]\Z")
# Retired codes, with what replaced them. A code is never reused.
RETIRED: dict[str, str] = {}


def names() -> tuple[str, ...]:
    """The names of the rules, sorted, without importing any."""
    return registry.names(__name__)


@cache
def all_rules() -> tuple[Rule, ...]:
    """Every rule, by code. ValueError if two share a code or a file does not define a valid rule."""
    rules: dict[str, Rule] = {}
    for name in names():
        made = get(name)
        if made.code in rules:
            raise ValueError(f"{made.code} is the code of both {rules[made.code].name} and {name}")
        rules[made.code] = made
    return tuple(rules[code] for code in sorted(rules))


@cache
def get(name: str) -> Rule:
    """The rule called `name`; KeyError if there is none, ValueError if its file does not define a valid rule."""
    module = registry.module(__name__, name)
    found = [value for value in vars(module).values() if isinstance(value, Rule)]
    if len(found) != 1:
        raise ValueError(f"{module.__name__} holds {len(found)} rules: one a file")
    made = found[0]
    if made.name != name:
        raise ValueError(f"{module.__name__} calls its rule {made.name!r}: the file's name is {name!r}")
    if not _CODE.match(made.code) or made.code in RETIRED:
        raise ValueError(f"{module.__name__}: {made.code!r} is not a code for a rule")
    doc = module.__doc__ or ""
    absent = missing(doc)
    if absent:
        raise ValueError(f"{module.__name__}: its docstring needs {', '.join(absent)} once each")
    return replace(made, doc=doc)


def explain(name_or_code: str) -> str | None:
    """What a rule checks and why, with examples, for people; None if there is no such rule."""
    wanted = name_or_code.strip().casefold()
    if wanted.startswith("gs"):
        made = next((r for r in all_rules() if r.code.casefold() == wanted), None)
    else:
        made = get(wanted) if wanted in names() else None
    if made is None:
        instead = RETIRED.get(name_or_code.strip().upper())
        return f"{name_or_code.strip().upper()} is no longer used: {instead}\n" if instead else None
    return f"{made.name}  ({made.code}, {made.severity.value} unless it says otherwise)\n\n{made.doc.strip()}\n"
