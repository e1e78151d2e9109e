"""Numbers together with where they come from, and how severe a finding they may carry."""

from __future__ import annotations

from enum import Enum
from typing import Any

from gesturesmith.kinds import Side
from gesturesmith.values import frozen


class Kind(Enum):
    """Where a number comes from."""

    DERIVED = "derived"  # arithmetic from a definition or a law
    PUBLISHED = "published"  # a printed measurement, treatise, standard or reference library, named
    PRACTICE = "practice"  # a player's or teacher's page, named; or common practice, marked so
    MEMORY = "memory"  # from memory, not looked up
    HOUSE = "house"  # our own judgement
    PLAYER = "player"  # what one player can do, as that player's profile says

    @property
    def may_refuse(self) -> bool:
        """Whether a finding that rests on this may refuse; where `only_far`, only far beyond its widest reading."""
        return self not in (Kind.MEMORY, Kind.HOUSE)

    @property
    def only_far(self) -> bool:
        """Whether it is what people say they do, and no measurement: what passes it a little may still be done."""
        return self in (Kind.PRACTICE, Kind.PLAYER)


DERIVED, PUBLISHED, PRACTICE, MEMORY, HOUSE = Kind.DERIVED, Kind.PUBLISHED, Kind.PRACTICE, Kind.MEMORY, Kind.HOUSE
PLAYER = Kind.PLAYER


@frozen
class Sourced[T]:
    """A value, the kind of its evidence, and the source in words."""

    value: T
    kind: Kind
    source: str


@frozen
class Limit:
    """A limit on which readings differ: caution beyond `narrow`, refused only beyond `wide`.

    `wide` is None where nothing at hand would justify a refusal. `unit` is the unit of both values. `wide_means`
    says what `wide` is, where that is no other reading of the same quantity. `side` is where it is passed: "above"
    or "below" it, by a level that is "louder" or "softer", "outside" what it names; "none" of what is only reckoned
    with, which nothing is measured against.
    """

    narrow: Sourced[Any]
    wide: Sourced[Any] | None = None
    unit: str = ""
    wide_means: str = ""
    side: Side = "above"

    def __post_init__(self) -> None:
        if self.wide is not None and not self.wide.kind.may_refuse:
            raise ValueError(f"a {self.wide.kind.value} value may not refuse: {self.wide}")
