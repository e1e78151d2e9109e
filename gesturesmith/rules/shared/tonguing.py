"""The speed of the tongue: a rate of attacks against the limits for the kind of tonguing and the register."""

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
    """The limits that a rate of attacks exceeds at a point, each with the words for what is too fast.

    gaps   of the run: a short run may be faster than a sustained rate
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
    """A rate against a limit on sustained rates, in a short run that can be faster by a factor."""
    if limit is None or limit.narrow.kind is PLAYER:  # the player's own number counts
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
    # The source refers to the limit itself.
    return replace(excess, evidence=narrow if excess.evidence == raised.narrow or wide is None else wide)


def other_tonguings(case: Case) -> tuple[Fix, ...]:
    """Kinds of tonguing that may be fast enough; if none is named, the player already uses the fastest."""
    return fixes.instead(case, "attack") if case.on_layer("attack") is not None else ()
