"""Where a copyist would change clef: phrase by phrase, and only where it saves more than it costs."""

from __future__ import annotations

from gesturesmith.engrave.events import Event
from gesturesmith.engrave.heads import natural
from gesturesmith.instruments.base import Instrument

# Diatonic steps above C0 of the staff's middle line.
MIDDLE = {"treble": 34, "bass": 22, "tenor": 26, "alto": 28}
_FREE_LEDGERS = 2  # ledger lines a player reads without effort; our own judgement
_CHANGE = 6  # a change must save more than so many ledger lines: no flapping; our own judgement
_BELOW = 2  # a note below what a clef serves well weighs as so many ledger lines


def ledgers(steps: int, clef: str) -> int:
    """Ledger lines of a note in a clef."""
    return max(0, (abs(steps - MIDDLE[clef]) - 4) // 2)


def phrases(events: list[Event]) -> list[list[Event]]:
    """Events in groups that no clef change may part: what a line or slur joins."""
    groups: list[list[Event]] = []
    for event in events:
        joined = event.point is not None and event.index is not None and event.point.reached in ("line", "slur")
        if not groups or not (joined or event.index is None):
            groups.append([])
        groups[-1].append(event)
    return groups


def assign(groups: list[list[Event]], instrument: Instrument) -> list[str]:
    """A clef for each group: the cheapest way through all of them, a change costing its price."""
    clefs = [(clef, lowest) for clef, lowest in instrument.clefs if clef in MIDDLE]
    costs: list[dict[str, float]] = []
    origin: list[dict[str, str]] = []
    for group in groups:
        here, came = {}, {}
        for place, (clef, lowest) in enumerate(clefs):
            before = costs[-1] if costs else {c: 0.0 for c, _ in clefs}
            price = 0 if not costs else _CHANGE
            best = min(
                (before[c] + (price if c != clef else 0), abs(p - place), c) for p, (c, _) in enumerate(clefs)
            )
            here[clef], came[clef] = best[0] + _cost(group, clef, lowest) + place * 0.01, best[2]
        costs.append(here)
        origin.append(came)
    if not groups:
        return []
    chosen = [min(costs[-1], key=lambda c: (costs[-1][c], [k for k, _ in clefs].index(c)))]
    for came in reversed(origin[1:]):
        chosen.append(came[chosen[-1]])
    return chosen[::-1]


def _cost(group: list[Event], clef: str, lowest: int) -> float:
    total = 0.0
    for event in group:
        head = event.head
        if head is None or head.steps is None:
            continue
        total += max(0, ledgers(head.steps, clef) - _FREE_LEDGERS)
        total += _BELOW if natural(head.steps).pitch_cents + 100 * head.alter < lowest else 0
    return total
