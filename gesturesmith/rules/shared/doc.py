"""A rule's docstring as data: what it checks, why, an example that fires, one that passes, how to fix it."""

from __future__ import annotations

import re
from pathlib import Path

# Profiles that examples name, in place of the folder of the file.
PLAYERS = Path(__file__).parent / "players"
HEADINGS = ("Checks", "Why", "Fires", "Passes", "Fix")
_HEADING = re.compile(rf"^({'|'.join(HEADINGS)})\b[ \t]*\n?[ \t]+\S", re.MULTILINE)


def missing(doc: str) -> tuple[str, ...]:
    """The headings that do not appear exactly once with text under them; faster than reading all sections."""
    found = _HEADING.findall(doc)
    return tuple(name for name in HEADINGS if found.count(name) != 1)


def sections(doc: str) -> dict[str, str]:
    """The text under each heading, without indentation; ValueError if one is missing or empty.

    A heading is at the margin. Its text may begin on the same line; indented lines below belong to it.
    """
    absent = missing(doc)
    if absent:
        raise ValueError(f"a rule needs {', '.join(absent)} once each: {doc.strip()[:60]}")
    import textwrap

    bodies: dict[str, list[str]] = {}
    current: list[str] = []
    for line in doc.strip().splitlines():
        word = line.partition(" ")[0].strip()
        if word in HEADINGS and not line[:1].isspace():
            first = line[len(word) :].strip()
            current = bodies[word] = [f"    {first}"] if first else []
        else:
            current.append(line)
    return {name: textwrap.dedent("\n".join(bodies[name])).strip("\n") for name in HEADINGS}
