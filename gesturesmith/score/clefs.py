"""Where a copyist would change clef: phrase by phrase, and only where it saves more than it costs."""

from __future__ import annotations

from gesturesmith.instruments.base import Instrument
from gesturesmith.score.events import EventBuilder
from gesturesmith.score.heads import natural

# Diatonic steps above C0 of the staff's middle line.
MIDDLE = {"treble": 34, "bass": 22, "tenor": 26, "alto": 28}
# What reading costs a player: our own judgement, like every weighing of this kind.
_FREE_LEDGERS = 2  # ledger lines read without effort; each beyond them weighs more than the one before
_BEGIN_AWAY = 2  # what begins in another clef than the usual one must earn it, as what changes to it must
_CHANGE = 6  # a change must save more than this: no flapping
_CHANGE_IN_REST = 2  # in a rest there is time to see it
_HOME_IN_REST = 0.5  # back to the usual clef it is not even a change, for the reader
_AWAY = 0.5  # each note in another clef than the instrument's usual one
_BELOW = 2  # each note below what a clef serves well
_STRANDED = 2  # each on several ledger lines in another clef that would lie within the lines of the usual one


def ledgers(steps: int, clef: str) -> int:
    """Ledger lines of a note in a clef."""
    return max(0, (abs(steps - MIDDLE[clef]) - 4) // 2)


def phrases(events: list[EventBuilder]) -> list[list[EventBuilder]]:
    """Events in groups that no clef change may part: what a line or slur joins."""
    groups: list[list[EventBuilder]] = []
    for event in events:
        joined = event.point is not None and event.index is not None and event.point.reached in ("line", "slur")
        if not groups or not (joined or event.index is None):
            groups.append([])
        groups[-1].append(event)
    return groups


def assign(groups: list[list[EventBuilder]], rests: list[bool], instrument: Instrument) -> list[str]:
    """A clef for each group: the cheapest way through them. `rests`: whether a rest stands before a group."""
    clefs = {clef: lowest for clef, lowest in instrument.clefs if clef in MIDDLE}
    home = _home(instrument, clefs)
    ways: dict[str, tuple[float, tuple[str, ...]]] = {home: (0.0, ())}
    for number, (group, rest) in enumerate(zip(groups, rests, strict=True)):
        price = _BEGIN_AWAY if not number else _CHANGE_IN_REST if rest else _CHANGE
        back = _HOME_IN_REST if number and rest else price
        step: dict[str, tuple[float, tuple[str, ...]]] = {}
        for clef, lowest in clefs.items():
            cost, came = min(
                (c + (0 if before == clef else back if clef == home else price), way)
                for before, (c, way) in ways.items()
            )
            step[clef] = (cost + _cost(group, clef, lowest, home), (*came, clef))
        ways = step
    return list(min(ways.values())[1]) if groups else []


def _home(instrument: Instrument, clefs: dict[str, int]) -> str:
    """The clef a part is written in: the highest that serves the whole middle register."""
    middle = instrument.register("middle") or instrument.registers[0]
    served = [clef for clef, lowest in clefs.items() if lowest <= middle.low.pitch_cents]
    return served[0] if served else next(reversed(clefs))


def _cost(group: list[EventBuilder], clef: str, lowest: int, home: str) -> float:
    total = 0.0
    for event in group:
        head = event.head
        if head is None or head.steps is None:
            continue
        lines = ledgers(head.steps, clef)
        total += max(0, lines - _FREE_LEDGERS) ** 2
        total += _BELOW if natural(head.steps).pitch_cents + 100 * head.alter < lowest else 0
        total += _AWAY if clef != home else 0
        total += _STRANDED if clef != home and lines > 1 and not ledgers(head.steps, home) else 0
    return total
