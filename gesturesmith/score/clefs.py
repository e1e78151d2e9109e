"""Where a copyist would change clef: between phrases, and only if it saves more than it costs."""

from __future__ import annotations

from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import Clef
from gesturesmith.score.events import EventBuilder
from gesturesmith.score.heads import natural

# The staff's middle line, in diatonic steps above C0.
MIDDLE: dict[Clef, int] = {"treble": 34, "bass": 22, "tenor": 26, "alto": 28}
# The cost of reading, to a player: our own judgement, like all such weights.
_FREE_LEDGERS = 2  # ledger lines read without effort; each further one costs more than the one before
_BEGIN_AWAY = 2  # beginning in a clef other than the usual one must pay, as changing to it must
_CHANGE = 6  # a change must save more than this: no switching back and forth
_CHANGE_IN_REST = 2  # during a rest there is time to see it
_HOME_IN_REST = 0.5  # for the reader, going back to the usual clef is hardly a change
_AWAY = 0.5  # each note in a clef other than the instrument's usual one
_BELOW = 2  # each note below what the clef suits
_STRANDED = 2  # each note on several ledger lines that would lie inside the staff in the usual clef


def ledgers(steps: int, clef: Clef) -> int:
    """The number of ledger lines of a note in a clef."""
    return max(0, (abs(steps - MIDDLE[clef]) - 4) // 2)


def phrases(events: list[EventBuilder]) -> list[list[EventBuilder]]:
    """Events in groups that no clef change may split: those joined by a line or slur."""
    groups: list[list[EventBuilder]] = []
    for event in events:
        joined = event.point is not None and event.index is not None and event.point.reached in ("line", "slur")
        if not groups or not (joined or event.index is None):
            groups.append([])
        groups[-1].append(event)
    return groups


def assign(groups: list[list[EventBuilder]], rests: list[bool], instrument: Instrument) -> list[Clef]:
    """A clef for each group, at the lowest total cost. `rests`: whether a rest precedes each group."""
    clefs = {clef: lowest for clef, lowest in instrument.clefs if clef in MIDDLE}
    home = _home(instrument, clefs)
    ways: dict[Clef, tuple[float, tuple[Clef, ...]]] = {home: (0.0, ())}
    for number, (group, rest) in enumerate(zip(groups, rests, strict=True)):
        price = _BEGIN_AWAY if not number else _CHANGE_IN_REST if rest else _CHANGE
        back = _HOME_IN_REST if number and rest else price
        step: dict[Clef, tuple[float, tuple[Clef, ...]]] = {}
        for clef, lowest in clefs.items():
            cost, came = min(
                (c + (0 if before == clef else back if clef == home else price), way)
                for before, (c, way) in ways.items()
            )
            step[clef] = (cost + _cost(group, clef, lowest, home), (*came, clef))
        ways = step
    return list(min(ways.values())[1]) if groups else []


def _home(instrument: Instrument, clefs: dict[Clef, int]) -> Clef:
    """The clef a part is written in: the highest that suits the whole middle register."""
    middle = instrument.register("middle") or instrument.registers[0]
    served = [clef for clef, lowest in clefs.items() if lowest <= middle.low.pitch_cents]
    return served[0] if served else next(reversed(clefs))


def _cost(group: list[EventBuilder], clef: Clef, lowest: int, home: Clef) -> float:
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
