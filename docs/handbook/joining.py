"""Which techniques go together: every pair, with its reason and what that rests on."""

from __future__ import annotations

from collections.abc import Iterator
from typing import get_args

from gesturesmith import techniques
from gesturesmith.kinds import JoinVerdict
from gesturesmith.techniques.base import LAYERS, Technique
from handbook.markdown import MADE, table

INTRODUCTION = "\n\n".join(
    (
        "Techniques are joined with `+`, in `technique` and after `as`. What one of them takes up of the player or "
        "of the note (the tongue, the throat, the hand, the way the pitch moves) another cannot use for something "
        "else at the same time: such a pair does *not* go together and is refused. A pair *with care* is a "
        "caution. All others go together, and ordinary playing with everything.",
        "Reasons that are *derived* follow from what each technique is; those of our own judgement are marked "
        "*house*.",
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
            free = "each leaves free what the other takes up"
            reason = free if verdict == "goes" else found.reason.value
            rows.setdefault((reason, found.reason.kind.value), []).append(f"`{other.key}`")
        for (reason, kind), others in rows.items():
            yield verdict, ", ".join(others), reason, kind
