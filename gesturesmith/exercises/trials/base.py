"""The definition of a trial family: gestures on both sides of a limit, for a player to try."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field, replace
from fractions import Fraction
from typing import Any

from gesturesmith.instruments.base import Instrument, Register
from gesturesmith.kinds import Needs
from gesturesmith.model.builder import NewGesture
from gesturesmith.model.gesture import LEVELS
from gesturesmith.units import Spelling, spell, spell_quarter
from gesturesmith.values import frozen

# Shares of the limit to try, the easiest first: our own choice of steps that a player notices.
ABOVE = (Fraction(3, 4), Fraction(1), Fraction(5, 4), Fraction(3, 2))  # for limits that care begins above
BELOW = (Fraction(3, 2), Fraction(1), Fraction(3, 4), Fraction(1, 2))


@frozen(kw_only=True)
class Family:
    """Trials of one kind of limit.

    limit       the name of the limit; with `in_registers`, its beginning: "bend_down" of "bend_down_low"; one of a
                technique as a profile has it: "growl.longest_s"
    rule        the rule that cites it
    title       what is tried, by language; "{register}" stands for the register's name, "{technique}" for that of
                `technique`, which alone is enough
    ask         what the player does, by language, in full sentences
    steps       values of the limit from easy to hard: shares of its narrow value; for levels, how many louder (+)
                or softer (-)
    grid        values are rounded to a multiple of this, in the limit's unit
    gesture     the gesture to play, for the register (the middle one where there are none) and the value
    """

    limit: str
    rule: str
    ask: Mapping[str, str]
    gesture: Callable[[Instrument, Register, Any], NewGesture]
    title: Mapping[str, str] = field(default_factory=dict)
    technique: str = ""
    in_registers: bool = False
    needs: Needs = ""
    steps: tuple[Fraction, ...] = ABOVE
    grid: Fraction = Fraction(1, 2)

    def values(self, narrow: Any) -> tuple[Any, ...]:
        """The values to try around a narrow one."""
        if isinstance(narrow, str):
            places = (LEVELS.index(narrow) + int(step) for step in self.steps)
            return tuple(LEVELS[place] for place in places if 0 <= place < len(LEVELS))
        exact = Fraction(str(narrow))
        rounded = (max(self.grid, self.grid * round(step * exact / self.grid)) for step in self.steps)
        return tuple(_plain(value) for value in dict.fromkeys(rounded))


def _plain(value: Fraction) -> int | float:
    return int(value) if value.denominator == 1 else float(value)


def middle(instrument: Instrument, register: Register) -> Spelling:
    """The written semitone in the middle of a register."""
    cents = (register.low.pitch_cents + register.high.pitch_cents) / 2
    return spell(100 * round(cents / 100))


def lowered(note: Spelling, cents: int) -> Spelling:
    """A note so many cents lower: a quarter tone if it is one, else the nearest semitone, and the rest in cents."""
    exact = int(note.pitch_cents) - cents
    if exact % 100 == 50:
        return spell_quarter(exact)
    near = 100 * round(Fraction(exact, 100))
    return replace(spell(near), cents=exact - near)
