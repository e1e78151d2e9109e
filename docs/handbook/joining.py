"""Which techniques go together: every pair, with the reason and its evidence."""

from __future__ import annotations

from collections.abc import Iterator
from typing import get_args

from gesturesmith import techniques
from gesturesmith.kinds import JoinVerdict
from gesturesmith.techniques.base import LAYERS, Technique
from handbook.markdown import MADE, table

INTRODUCTION = "\n\n".join(
    (
        "Techniques are joined with `+`, in `technique` and after `as`. If two techniques need the same part of "
        "the player or of the note (the tongue, the throat, the hand, the way the pitch moves) for different "
        "things, they do *not* go together and are refused. A pair *with care* gets a caution. All other pairs go "
        "together, and ordinary playing goes with everything.",
        "*Derived* reasons follow from the definitions of the techniques; *house* marks our own judgement.",
    )
)


def joining_page() -> str:
    found = sorted((techniques.get(name) for name in techniques.names()), key=lambda t: LAYERS.index(t.layer))
    parts = ["# Techniques together", MADE, INTRODUCTION]
    for technique in found:
        if technique.layer != "none":
            parts += [f"## {technique.key}", table(("verdict", "with", "because", "evidence"), _rows(technique))]
    return "\n\n".join(parts) + "\n"


def _rows(technique: Technique) -> Iterator[tuple[str, str, str, str]]:
    for verdict in get_args(JoinVerdict):
        rows: dict[tuple[str, str], list[str]] = {}
        for other, found in techniques.joined_with(technique, verdict):
            free = "they use different parts"
            reason = free if verdict == "goes" else found.reason.value
            rows.setdefault((reason, found.reason.kind.value), []).append(f"`{other.key}`")
        for (reason, kind), others in rows.items():
            yield verdict, ", ".join(others), reason, kind
