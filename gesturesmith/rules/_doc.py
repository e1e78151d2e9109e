"""The docstring of a rule as data: what it checks, why, an example that fires, one that passes, what to do."""

from __future__ import annotations

import textwrap

HEADINGS = ("Checks", "Why", "Fires", "Passes", "Fix")


def sections(doc: str) -> dict[str, str]:
    """The text under each heading, without its indentation; ValueError where one is missing or empty.

    A heading stands at the margin. Text may follow it on its line; deeper lines below belong to it.
    """
    bodies: dict[str, list[str]] = {}
    current: list[str] | None = None
    for line in doc.strip().splitlines():
        word = line.partition(" ")[0].strip()
        if word in HEADINGS and not line[:1].isspace():
            if word in bodies:
                raise ValueError(f"heading {word!r} twice in: {doc.strip()[:60]}")
            first = line[len(word) :].strip()
            current = bodies[word] = [f"    {first}"] if first else []
        elif current is not None:
            current.append(line)
    found = {name: textwrap.dedent("\n".join(body)).strip("\n") for name, body in bodies.items()}
    missing = [name for name in HEADINGS if not found.get(name, "").strip()]
    if missing:
        raise ValueError(f"a rule without {', '.join(missing)}: {doc.strip()[:60]}")
    return {name: found[name] for name in HEADINGS}
