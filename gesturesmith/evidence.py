"""Numbers with their sources, and how severe a finding based on them may be."""

from __future__ import annotations

import re
from enum import Enum
from typing import Any

from gesturesmith.kinds import Side
from gesturesmith.values import frozen

_TRIED = re.compile(r"\d+ players? tried\b")  # how the source of pooled answers begins


class Kind(Enum):
    """The kind of source of a number."""

    DERIVED = "derived"  # calculated from a definition or a law
    PUBLISHED = "published"  # a printed measurement, treatise, standard or reference library, named
    PRACTICE = "practice"  # a player's or teacher's page, named; or common practice, marked as such
    MEMORY = "memory"  # from memory, not looked up
    HOUSE = "house"  # our own judgement
    PLAYER = "player"  # what one player can do, as that player's profile says

    @property
    def may_refuse(self) -> bool:
        """Whether a finding based on this may refuse; if `only_far`, only far beyond its widest reading."""
        return self not in (Kind.MEMORY, Kind.HOUSE)

    @property
    def only_far(self) -> bool:
        """Whether it is reported practice, not a measurement: a little beyond it may still be possible."""
        return self in (Kind.PRACTICE, Kind.PLAYER)


DERIVED, PUBLISHED, PRACTICE, MEMORY, HOUSE = Kind.DERIVED, Kind.PUBLISHED, Kind.PRACTICE, Kind.MEMORY, Kind.HOUSE
PLAYER = Kind.PLAYER


@frozen
class Sourced[T]:
    """A value, the kind of its evidence, and the source in words."""

    value: T
    kind: Kind
    source: str

    @property
    def whose(self) -> str:
        """Whose word it is, if it is that of players who were asked: "this player", "5 players tried"; else ""."""
        if self.kind is Kind.PLAYER:
            return "this player"
        told = _TRIED.match(self.source)
        return told[0] if told else ""


@frozen
class Limit:
    """A limit on which readings differ: caution beyond `narrow`, refused only beyond `wide`.

    `wide` is None if no evidence justifies a refusal. `unit` is the unit of both values. `wide_means` says what
    `wide` is if it is not another reading of the same quantity. `side` is the refused side: "above" or "below" it,
    a level "louder" or "softer", "outside" what it names; "none" if it is only used in calculations.
    """

    narrow: Sourced[Any]
    wide: Sourced[Any] | None = None
    unit: str = ""
    wide_means: str = ""
    side: Side = "above"

    def __post_init__(self) -> None:
        if self.wide is not None and not self.wide.kind.may_refuse:
            raise ValueError(f"a {self.wide.kind.value} value may not refuse: {self.wide}")
