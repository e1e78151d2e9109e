"""The order in which the bars of a score are played: repeats, endings, D.C. and D.S. written out."""

from __future__ import annotations

from collections.abc import Sequence

from gesturesmith.importers.notated import ScoreBar

MAX_PLAYED = 50_000  # bars, with every repeat


def played(bars: Sequence[ScoreBar]) -> tuple[tuple[int, ...], bool]:
    """The indices of the bars in the order in which they are played, and whether that is all of them (False: it was
    cut at the limit).

    After D.C. or D.S. repeats are not played again, as is the custom, the last ending is taken, and `fine` or
    `to coda` counts.
    """
    order: list[int] = []
    endings = _endings(bars)
    start, times = 0, 1  # of the stretch between repeat signs, and which time it is played
    jumped = False
    taken: set[int] = set()  # bars whose jump has been taken
    at = 0
    while at < len(bars):
        if len(order) >= MAX_PLAYED:
            return tuple(order), False
        signs = bars[at].signs
        if signs.starts and at != start:
            start, times = at, 1
        ending = endings[at]
        last = _last_time(bars, endings, start, at)
        if ending and (times not in ending if not jumped else max(ending) < last):
            at = _after_ending(endings, at)
            continue
        order.append(at)
        if signs.ends and not jumped and times < max(signs.times, last if ending else 0):
            times += 1
            at = start
            continue
        if signs.ends:
            start, times = at + 1, 1
        if jumped and signs.fine:
            break
        if jumped and signs.to_coda:
            coda = _find(bars, at + 1, "coda", signs.to_coda)
            if coda is not None:
                at = coda
                continue
        if (signs.da_capo or signs.dal_segno) and at not in taken:
            taken.add(at)
            target = 0 if signs.da_capo else _find(bars, 0, "segno", signs.dal_segno)
            if target is not None and target <= at:
                jumped, at = True, target
                start, times = target, 1
                continue
        at += 1
    return tuple(order), True


def _endings(bars: Sequence[ScoreBar]) -> tuple[tuple[int, ...], ...]:
    """For each bar the numbers of the ending that it is in, () for none."""
    found: list[tuple[int, ...]] = []
    now: tuple[int, ...] = ()
    for bar in bars:
        now = bar.signs.ending or now
        found.append(now)
        if bar.signs.ending_ends:
            now = ()
    return tuple(found)


def _last_time(bars: Sequence[ScoreBar], endings: Sequence[tuple[int, ...]], start: int, at: int) -> int:
    """The highest number among the endings around a bar, or before it since `start`; 0 if there are none."""
    if not endings[at]:
        return 0
    last = at
    while last + 1 < len(bars) and endings[last + 1]:
        last += 1
    first = at
    while first > start and endings[first - 1]:
        first -= 1
    return max(max(endings[i]) for i in range(first, last + 1))


def _after_ending(endings: Sequence[tuple[int, ...]], at: int) -> int:
    """The bar after the ending that a bar is in."""
    own = endings[at]
    while at < len(endings) and endings[at] == own:
        at += 1
    return at


def _find(bars: Sequence[ScoreBar], first: int, sign: str, name: str) -> int | None:
    """The first bar with this sign, of this name if any has it."""
    there = [i for i in range(first, len(bars)) if getattr(bars[i].signs, sign)]
    named = [i for i in there if getattr(bars[i].signs, sign) == name]
    return next(iter(named or there), None)
