"""How quick the tongue is: a rate of attacks against the limits of its kind of tonguing and of its register."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from gesturesmith.diagnostics.changes import Fix
from gesturesmith.evidence import PLAYER, Limit
from gesturesmith.model.gesture import ContourPoint
from gesturesmith.realise.tonguing import burst, rate_limit
from gesturesmith.rules.base import Case
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import Excess, above
from gesturesmith.rules.shared.reading import register_name

TONGUINGS = {
    "single_tongue": "single tonguing",
    "double_tongue": "double tonguing",
    "triple_tongue": "triple tonguing",
    "split_attack": "split attacks",
    "slap": "slaps",
}


def tonguing(case: Case, point: ContourPoint, rate: float, gaps: int) -> Iterator[tuple[Excess, str]]:
    """The limits that so many attacks a second pass at a point, each with the words for what is too fast.

    gaps   how many attacks of the run follow another: a short run may be quicker than what is kept up
    """
    if not any(t.tone == "none" and not t.rate for t in point.techniques):
        register = register_name(case, point)
        name = rate_limit(case.instrument, point.techniques, register)
        excess = _above(case.instrument.limits.get(name), burst(case.instrument, gaps), rate)
        if excess is not None:
            yield excess, TONGUINGS.get(name.removesuffix(f"_per_s_{register}"), name)
    for technique in point.techniques:
        excess = above(technique.limits.get("fastest_per_s"), rate)
        if excess is not None:
            yield excess, technique.title["en"].lower()


def _above(limit: Limit | None, quicker: float, rate: float) -> Excess | None:
    """A rate against a limit on what is kept up, in a run so short that it can be so many times quicker."""
    if limit is None or limit.narrow.kind is PLAYER:  # whose own number is the one that counts
        return above(limit, rate)
    if rate <= limit.narrow.value:
        return None
    narrow, wide = limit.narrow, limit.wide
    raised = replace(
        limit,
        narrow=replace(narrow, value=round(narrow.value * quicker, 1)),
        wide=replace(wide, value=round(wide.value * quicker, 1)) if wide is not None else None,
    )
    excess = above(raised, rate)
    if excess is None:
        return None
    # The source speaks of the limit as it is.
    return replace(excess, evidence=narrow if excess.evidence == raised.narrow or wide is None else wide)


def other_tonguings(case: Case) -> tuple[Fix, ...]:
    """Ways of tonguing that may be quick enough; where none is named, the player takes the quickest already."""
    return fixes.instead(case, "attack") if case.on_layer("attack") is not None else ()
