"""Explains difficulty: what it is made of, and the comfortable range of each quantity."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from gesturesmith.difficulty.quantities import COMFORTABLE_LEVELS, QUANTITIES, Quantity
from gesturesmith.evidence import Sourced
from gesturesmith.rules.shared.reading import plain

NAME = "difficulty"
_WIDTH = 96
_INDENT = 12
_INTRODUCTION = (
    "0 to 100 for each gesture, from the quantities below. Each has a comfortable middle, where it adds nothing. "
    "Beyond the edge of comfort its share rises evenly: half at the place of care, where the checker begins to "
    "warn or where we judge that care begins, all of it as far again beyond. Together they make 100 (1 - the "
    "product of (1 - weight times share)), so that moving any of them away from its middle never makes a gesture "
    "easier.",
    "Going out from the middle register, a limit that would grow milder stays as it was: high notes are not easier "
    "for taking less air, nor low ones for bending further. What depends on the fingering of a pitch (cents "
    "to correct, the travel of a slide) may differ from one pitch to the next, and is a separate quantity.",
    "The number says how much is asked; whether it can be played is the checker's verdict. Weights and edges are "
    "our own judgement: they rank gestures, they do not judge them. A passage has the largest share of each "
    "quantity in what it plays, and the effort that its rests do not restore.",
)


def explain_difficulty() -> str:
    """The text of `gesturesmith explain difficulty`."""
    rows = ["Difficulty", ""]
    for paragraph in _INTRODUCTION:
        rows += [*textwrap.wrap(paragraph, _WIDTH, break_on_hyphens=False), ""]
    for quantity in QUANTITIES:
        rows += _quantity(quantity)
    return "\n".join(rows) + "\n"


def introduction() -> tuple[str, ...]:
    """What difficulty is, in paragraphs."""
    return _INTRODUCTION


def ease_words(quantity: Quantity) -> str:
    """The end of the comfortable range."""
    value = quantity.ease.value
    if quantity.unit == "levels":
        return " to ".join(COMFORTABLE_LEVELS.value)
    if quantity.care is None and value:
        return f"{plain(value)} of the limit" if value < 1 else f"{plain(value)} times the limit"
    return f"{value:g} {quantity.unit}"


def care_words(quantity: Quantity) -> str:
    """The point at which the share is one half."""
    return quantity.limits if quantity.care is None else f"{quantity.care.value:g} {quantity.unit}"


def evidence(quantity: Quantity) -> Iterator[Sourced[float]]:
    """The evidence of a quantity's comfortable range, point of care and weight."""
    yield quantity.ease
    if quantity.care is not None:
        yield quantity.care
    yield quantity.weight


def _quantity(quantity: Quantity) -> list[str]:
    said = "; ".join(f"{s.kind.value}: {s.source}" for s in evidence(quantity))
    text = (
        f"{quantity.measures}. Comfortable: {ease_words(quantity)}. Care: {care_words(quantity)}. "
        f"Weight {quantity.weight.value:g}. ({said})"
    )
    return textwrap.wrap(
        text,
        _WIDTH,
        initial_indent=f"{quantity.name:<{_INDENT}}",
        subsequent_indent=" " * _INDENT,
        break_long_words=False,
        break_on_hyphens=False,
    )
