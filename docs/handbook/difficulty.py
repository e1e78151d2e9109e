"""Difficulty: its quantities."""

from __future__ import annotations

from gesturesmith.difficulty.quantities import QUANTITIES, Quantity
from gesturesmith.explain import difficulty as explain_difficulty
from handbook.markdown import MADE, evidence_text, table


def quantity_row(quantity: Quantity) -> tuple[object, ...]:
    """One row of the table of difficulty."""
    return (
        f"`{quantity.name}`",
        quantity.measures,
        explain_difficulty.ease_words(quantity),
        explain_difficulty.care_words(quantity),
        f"{quantity.weight.value:g}",
        "; ".join(evidence_text(s) for s in explain_difficulty.evidence(quantity)),
    )


def difficulty_page() -> str:
    head = ("quantity", "what is measured", "comfortable up to", "half its share at", "weight", "evidence")
    parts = [
        "# Difficulty",
        MADE,
        *explain_difficulty.introduction(),
        "Named limits are listed with the [instruments](instruments.md) and the [techniques](techniques.md). "
        "`gesturesmith explain difficulty` prints the same; `gesturesmith check --json` gives every gesture its "
        "`difficulty`, and its reasons under `demands`.",
        table(head, (quantity_row(q) for q in QUANTITIES)),
    ]
    return "\n\n".join(parts) + "\n"
