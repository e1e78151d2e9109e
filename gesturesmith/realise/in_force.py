"""What the techniques in force together mean for playing; the one place that works this out."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from gesturesmith.kinds import BellHand, Cover, Mute, Path, Pitched, Trill
from gesturesmith.techniques.base import Technique


class InForce(NamedTuple):
    """The consequences of the techniques at a point for the choice of a tube."""

    path: Path
    pitched: Pitched
    bell: BellHand  # shut by the hand or a stopping mute
    trill: Trill
    one_partial: bool
    hand_free: bool
    first: bool  # on the first harmonic of a tube


@lru_cache(1024)
def in_force(techniques: tuple[Technique, ...], mute: Mute | None) -> InForce:
    """All of them."""
    return InForce(
        path=path_of(techniques),
        pitched=pitched_by(techniques),
        bell="stopped" if mute == "stopping" and is_muted(techniques) else bell_hand(techniques),
        trill=next((t.trill for t in techniques if t.trill), ""),
        one_partial=stays_on_partial(techniques),
        hand_free=hand_is_free(techniques),
        first=any(t.harmonic == "first" for t in techniques),
    )


def path_of(techniques: Sequence[Technique]) -> Path:
    """How the pitch moves from there: by the path of the technique of motion, else of the valves; of two, which
    exclude each other, of the later."""
    for layer in ("motion", "valves"):
        for technique in reversed(techniques):
            if technique.layer == layer and technique.path != "none":
                return technique.path
    return "none"


def pitched_by(techniques: Sequence[Technique]) -> Pitched:
    """The vaguest `pitched` of any of them."""
    least: Pitched = "exact"
    for technique in techniques:
        if technique.pitched == "none":
            return "none"
        if technique.pitched == "about":
            least = "about"
    return least


def bell_hand(techniques: Sequence[Technique]) -> BellHand:
    """How far the hand closes the bell."""
    return next((t.bell_hand for t in techniques if t.bell_hand), "")


def cover(techniques: Sequence[Technique]) -> Cover:
    """How far the bell, or the opening of the mute, is covered."""
    return next((t.cover for t in techniques if t.cover), "")


def is_muted(techniques: Sequence[Technique]) -> bool:
    """Whether the mute is in."""
    return any(t.takes_mute for t in techniques)


def hand_is_free(techniques: Sequence[Technique]) -> bool:
    """Whether the hand is not closing the bell, and no mute keeps it out."""
    return not any(t.bell_hand or t.takes_mute for t in techniques)


def stays_on_partial(techniques: Sequence[Technique]) -> bool:
    """Whether a movement of the lip stays on its partial."""
    return any(t.one_partial for t in techniques)
