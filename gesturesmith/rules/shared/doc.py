"""The docstring of a rule as data: what it checks, why, an example that fires, one that passes, what to do."""

from __future__ import annotations

import re

HEADINGS = ("Checks", "Why", "Fires", "Passes", "Fix")
_HEADING = re.compile(rf"^({'|'.join(HEADINGS)})\b[ \t]*\n?[ \t]+\S", re.MULTILINE)


def missing(doc: str) -> tuple[str, ...]:
    """The headings that are not there exactly once with something under them; quicker than to read it all."""
    found = _HEADING.findall(doc)
    return tuple(name for name in HEADINGS if found.count(name) != 1)


def sections(doc: str) -> dict[str, str]:
    """The text under each heading, without its indentation; ValueError where one is missing or empty.

    A heading stands at the margin. Text may follow it on its line; deeper lines below belong to it.
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
