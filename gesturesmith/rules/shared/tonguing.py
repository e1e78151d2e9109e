"""How quick the tongue is: a rate of attacks against the limits of its kind of tonguing and of its register."""

from __future__ import annotations

from collections.abc import Iterator

from gesturesmith.diagnostics.changes import Fix, TechniquesChange
from gesturesmith.model.gesture import ContourPoint
from gesturesmith.rules.base import Case
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import Excess, above
from gesturesmith.rules.shared.reading import register_name
from gesturesmith.techniques.base import Technique

TONGUINGS = {
    "single_tongue": "single tonguing",
    "double_tongue": "double tonguing",
    "triple_tongue": "triple tonguing",
    "split_attack": "split attacks",
    "slap": "slaps",
}


def tonguing(case: Case, point: ContourPoint, rate: float) -> Iterator[tuple[Excess, str]]:
    """The limits that so many attacks a second pass at a point, each with the words for what is too fast."""
    kinds: list[Technique] = [t for t in point.techniques if t.layer == "attack" or "fastest_per_s" in t.limits]
    prefix = next((t.rate for t in kinds if t.rate), "single_tongue")
    register = register_name(case, point)
    if not any(t.tone == "none" and not t.rate for t in point.techniques):
        excess = above(case.instrument.limits.get(f"{prefix}_per_s_{register}"), rate)
        if excess is not None:
            yield excess, TONGUINGS.get(prefix, prefix)
    for technique in kinds:
        excess = above(technique.limits.get("fastest_per_s"), rate)
        if excess is not None:
            yield excess, technique.title["en"].lower()


def other_tonguings(case: Case) -> tuple[Fix, ...]:
    """Ways of tonguing that may be quick enough."""
    gesture = case.gesture
    if case.on_layer("attack") is None and not any(t.tone == "none" for t in gesture.techniques):
        row = [t.key for t in gesture.techniques if t.layer != "none"]
        return tuple((TechniquesChange((*row, key)),) for key in ("double-tongue", "triple-tongue"))
    return fixes.instead(case, "attack")
