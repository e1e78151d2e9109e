"""From times to note values, as a copyist would write them. Numbers only: no score, no pitch.

Times are exact, in beats (quarter notes) from the start of the music. Note values are in beats too: 4 is a whole
note, 3/2 a dotted quarter, 1/16 a sixty-fourth.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from math import floor
from typing import Literal

from gesturesmith.values import frozen

F = Fraction
_SHORTEST = F(1, 16)  # a sixty-fourth note
_SHORTEST_TRIPLET = F(1, 24)
_LONGEST = F(4)
_START = F(0)
_CUT = F(4)  # beats of a point kept on one line

# How a slot is written.
#   note    a note value, tied if one value is not enough
#   moving  a note value whose sound moves off at once: one head, and nothing for the rest of its time
#   stroke  a note value for a sound that ends at once, and rests for the rest of its time
#   point   a stemless head, spaced by time
#   rest    silence
type SlotKind = Literal["note", "moving", "stroke", "point", "rest"]
type LeafKind = Literal["note", "point", "rest", "bar-rest", "skip"]
type Beam = Literal["", "start", "end"]
# The note values of grace notes, in beats: one has a flag, several are under a beam.
GRACE_VALUE, GRACES_VALUE = Fraction(1, 2), Fraction(1, 4)


@frozen
class Slot:
    """A stretch of time with one note, point or rest; `key` identifies its event.

    gathered   a rest merged into the one before it, which includes its time
    """

    start: Fraction
    end: Fraction
    kind: SlotKind
    key: int
    gathered: bool = False

    @property
    def valued(self) -> bool:
        return self.kind != "point"


@frozen(kw_only=True)
class Leaf:
    """One note, rest or skip.

    value   its note value in beats (of a point or skip: its length, which the score writes as a factor)
    kind    note | point | rest | bar-rest | skip
    first   whether it carries the event's head and marks
    last    whether it is the last leaf of its event
    group   leaves with the same group are beamed together
    beam    whether a beam begins or ends here
    """

    key: int
    at: Fraction
    value: Fraction
    kind: LeafKind
    first: bool = False
    last: bool = False
    tied: bool = False
    group: int = 0
    beam: Beam = ""


@frozen
class Tuplet:
    """Leaves of which `count` take the time of `normal` (3 in the time of 2, 5 in the time of 4, ...)."""

    leaves: tuple[Leaf, ...]
    count: int = 3
    normal: int = 2

    @property
    def factor(self) -> Fraction:
        """What the values of its leaves are multiplied by."""
        return F(self.normal, self.count)


@frozen
class Meter:
    """Bars of `bar` beats, divided into `cells` that must stay visible; free: cells of one beat, no bars.

    quarters   the player's beat is a quarter
    origin     where a bar begins, from which they are counted; before 0 if the music begins within a bar
    since      from when it holds; `later`: the meters after it, in order
    """

    bar: Fraction | None
    cells: tuple[Fraction, ...]
    quarters: bool = True
    origin: Fraction = _START
    since: Fraction = _START
    later: tuple[Meter, ...] = ()

    def at(self, time: Fraction) -> Meter:
        """The meter in force at a time."""
        return next((meter for meter in reversed(self.later) if meter.since <= time), self) if self.later else self

    def sections(self, start: Fraction, end: Fraction) -> Iterator[tuple[Fraction, Fraction, Meter]]:
        """The stretches between two times, each in one meter."""
        ends = (*(meter.since for meter in self.later), end)
        since = start
        for meter, until in zip((self, *self.later), ends, strict=True):
            if since < min(until, end):
                yield since, min(until, end), replace(meter, later=()) if meter.later else meter
            since = max(start, until)

    def cell(self, at: Fraction) -> tuple[Fraction, Fraction]:
        """Start and end of the cell that contains a time."""
        here = self.at(at)
        if here.bar is None:
            start = at // here.cells[0] * here.cells[0]
            return start, start + here.cells[0]
        base = here.bar_start(at)
        for length in here.cells:
            if at < base + length:
                return base, base + length
            base += length
        raise ValueError(f"no cell at {at}")

    def bar_start(self, at: Fraction) -> Fraction:
        here = self.at(at)
        return F(0) if here.bar is None else here.origin + (at - here.origin) // here.bar * here.bar

    def bar_end(self, at: Fraction) -> Fraction | None:
        here = self.at(at)
        return None if here.bar is None else here.bar_start(at) + here.bar


_QUARTER = F(1)
FREE = Meter(None, (_QUARTER,))


def free(beat: Fraction) -> Meter:
    """No bars, in which a beat of so many quarters is counted."""
    return FREE if beat == 1 else Meter(None, (beat if beat.numerator == 3 else F(1),), quarters=False)


def meter_of(signature: tuple[int, int] | None, counted: Fraction = _QUARTER) -> Meter:
    """The meter of a time signature; eighths (and shorter) in threes where there are more than three by threes."""
    if signature is None:
        return free(counted)
    count, unit = signature
    beat, bar = F(4, unit), F(4 * count, unit)
    if unit >= 8 and count % 3 == 0 and count > 3:
        return Meter(bar, (3 * beat,) * (count // 3), quarters=False)
    if unit >= 8:
        # Pairs, with a final three if the number is odd: 5/8 is 2 + 3, 7/8 is 2 + 2 + 3, 3/8 one group.
        pairs = (2 * beat,) * (count // 2)
        cells = (*pairs[:-1], 3 * beat) if count % 2 and pairs else pairs or (beat,)
        return Meter(bar, cells, quarters=False)
    return Meter(bar, (F(1),) * int(bar), quarters=unit == 4)


def meters(
    signatures: Sequence[tuple[Fraction, tuple[int, int]]],
    counted: Fraction = _QUARTER,
    pickup: Fraction | None = None,
) -> Meter:
    """The meter of music with several time signatures, each from a time on. `pickup`: beats before the first whole
    bar."""
    found = []
    for since, signature in signatures:
        one = meter_of(signature, counted)
        origin = pickup - one.bar if pickup and not since and one.bar is not None else since
        found.append(replace(one, origin=origin, since=since))
    return replace(found[0], later=tuple(found[1:]))


def leaves(slots: tuple[Slot, ...], meter: Meter) -> tuple[Leaf | Tuplet, ...]:
    """The leaves of contiguous slots (gathered ones excepted) that have been through `settled`."""
    cuts = _cuts(slots)  # also of gathered ones: a rest written in two parts keeps its place in the beat
    slots = tuple(slot for slot in slots if not slot.gathered)
    if not slots:
        return ()
    made: list[Leaf | Tuplet] = []
    for start, end, here in meter.sections(slots[0].start, slots[-1].end):
        for stretch in _stretches(_between(cuts, start, end), start, end, here):
            if not stretch.count:
                raise ValueError(f"no note value between {stretch.start} and {stretch.end}")
            if stretch.count > 1:
                made.append(Tuplet(tuple(_in_tuplet(slots, stretch, here)), stretch.count, stretch.normal))
                continue
            for leaf in _in_plain(slots, stretch.start, stretch.end, here):
                last = made[-1] if made and leaf.at != start else None
                if isinstance(last, Leaf) and leaf.kind == last.kind == "bar-rest" and leaf.key == last.key:
                    made[-1] = replace(last, value=last.value + leaf.value)  # empty bars form one multi-bar rest
                else:
                    made.append(leaf)
    return tuple(_with_lasts(made))


def settled(slots: tuple[Slot, ...], groups: tuple[int, ...], meter: Meter) -> tuple[Slot, ...]:
    """The slots, with groups that note values cannot express made stemless.

    `groups[i]` is the gesture that slot i belongs to: a gesture is written in values or in points, never mixed.
    Rests stay rests if they can; else they become points too.
    """
    while True:
        cuts = _cuts(slots)
        sections = tuple(meter.sections(slots[0].start, slots[-1].end)) if slots else ()
        own = [(_between(cuts, start, end), start, end, here) for start, end, here in sections]
        found = (stretch for one in own if not _plain(one[0], one[3].origin) for stretch in _stretches(*one))
        bad = [(stretch.start, stretch.end) for stretch in found if not stretch.count]
        inside = [
            (slot, g, start)
            for slot, g in zip(slots, groups, strict=True)
            for start, end in bad
            if slot.valued and slot.start < end and start < slot.end
        ]
        # Slots between the plain values become points; failing that, everything that shares the stretch with them.
        hit = {g for slot, g, start in inside if _uneven(slot, start)} or {g for _, g, _ in inside}
        changed = tuple(
            replace(slot, kind="point") if g in hit else slot for slot, g in zip(slots, groups, strict=True)
        )
        if changed == slots:
            return slots
        slots = changed


def _uneven(slot: Slot, start: Fraction) -> bool:
    return any((at - start) % _SHORTEST for at in (slot.start, slot.end))


def is_value(length: Fraction) -> bool:
    """Whether a single note, plain or dotted once, can last this many beats."""
    return (
        _SHORTEST <= length <= F(6) and length.denominator.bit_count() == 1 and length.numerator in (1, 2, 3, 4, 6)
    )


# --- which stretches of time are plain, which are tuplets ---------------------------------------------------


@frozen
class WrittenStretch:
    """A stretch of time written in one way: `count` in the time of `normal`; count 1 is plain, 0 has no note
    values. `halvings`: how often its basic value is halved."""

    start: Fraction
    end: Fraction
    count: int = 1
    normal: int = 1
    halvings: int = 0


# Tuplets besides triplets. Six and ten are two even triplets or quintuplets in a row. Larger ones cannot be read at
# sight: our own judgement.
_COUNTS = (5, 7, 9, 11, 13)
_HALVINGS = 2  # how often a tuplet's basic value may be halved
_WIDEST = 4  # beats in one tuplet at most
# What makes a notation worse: time without note values, a tuplet, a halved value in it, each beat of it, a note
# tied into or out of it, the middle of a bar inside it. Our own judgement; only their order matters.
_UNWRITTEN, _PER_TUPLET, _PER_HALVING, _PER_BEAT, _PER_TIE, _PER_MIDDLE = 1000, 20, 30, 1, 10, 15


def _cuts(slots: tuple[Slot, ...]) -> tuple[Fraction, ...]:
    """The times at which slots with note values begin or end, sorted."""
    return tuple(sorted({t for s in slots if s.valued for t in (s.start, s.end)}))


def _between(cuts: tuple[Fraction, ...], start: Fraction, end: Fraction) -> tuple[Fraction, ...]:
    return cuts[bisect_left(cuts, start) : bisect_right(cuts, end)]


def _inside(cuts: tuple[Fraction, ...], start: Fraction, end: Fraction) -> tuple[Fraction, ...]:
    return cuts[bisect_right(cuts, start) : bisect_left(cuts, end)]


def _plain(cuts: tuple[Fraction, ...], start: Fraction) -> bool:
    return all((cut - start) % _SHORTEST == 0 for cut in cuts)


def _even_thirds(cuts: tuple[Fraction, ...], start: Fraction) -> bool:
    return all((cut - start) % _SHORTEST_TRIPLET == 0 for cut in cuts)


def _normal(count: int, length: Fraction) -> int | None:
    """For a tuplet of `count` lasting `length` beats, the number whose time it takes: the largest power of two (in
    a dotted length, three times one) that is smaller. None if no note value divides the length like this."""
    if length.denominator.bit_count() != 1 or length.numerator not in (1, 2, 3, 4, 6):
        return None
    normal = 3 if length.numerator % 3 == 0 else 2
    while normal * 2 < count:
        normal *= 2
    return normal


def _tuplet(cuts: tuple[Fraction, ...], start: Fraction, end: Fraction) -> WrittenStretch | None:
    """The tuplet that fits all cuts between two times, preferring coarse and small ones."""
    inner, length = _inside(cuts, start, end), end - start
    if not inner:
        return None
    for halvings in range(_HALVINGS + 1):
        for count in _COUNTS:
            normal = _normal(count, length)
            if normal is None or length / normal / 2**halvings < _SHORTEST:
                continue
            if all((cut - start) % (length / count / 2**halvings) == 0 for cut in inner):
                whole = count << halvings
                if whole in (6, 10) and len(inner) == whole - 1:  # the bracket counts the notes under it
                    return WrittenStretch(start, end, whole, normal << halvings, halvings)
                return WrittenStretch(start, end, count, normal, halvings)
    return None


def _wide_triplet(cuts: tuple[Fraction, ...], start: Fraction, meter: Meter) -> WrittenStretch | None:
    """The triplet over four or two whole beats that contains the cell at a time, or None."""
    if any(cell != 1 for cell in meter.cells):
        return None
    for width in (4, 2):
        base = meter.bar_start(start)
        first = base + (start - base) // width * width
        bar_end = meter.bar_end(start)
        if bar_end is not None and first + width > bar_end:
            continue
        inner = _inside(cuts, first, first + width)
        if inner and all((cut - first) % F(width, 3) == 0 for cut in inner):
            return WrittenStretch(first, first + width, 3, 2)
    return None


def _divided(
    cuts: tuple[Fraction, ...], start: Fraction, end: Fraction, *, odd: bool
) -> tuple[WrittenStretch, ...] | None:
    """A cell as plain stretches and triplets, and with `odd` other tuplets; None if no note values give its
    cuts."""
    inner = _inside(cuts, start, end)
    if _plain(inner, start):
        return (WrittenStretch(start, end),)
    halves = [start + F(n, 2) for n in range(1, int((end - start) * 2)) if start + F(n, 2) in inner]
    if halves:
        parts = [_divided(cuts, a, b, odd=odd) for a, b in pairwise((start, *halves, end))]
        if all(part is not None for part in parts):
            whole = tuple(piece for part in parts if part is not None for piece in part)
            return _as_one(whole, inner) or whole
    if end - start in (F(1), F(1, 2)) and _even_thirds(inner, start):
        return (WrittenStretch(start, end, 3, 2),)
    found = _tuplet(cuts, start, end) if odd else None
    return None if found is None else (found,)


def _as_one(parts: tuple[WrittenStretch, ...], inner: tuple[Fraction, ...]) -> tuple[WrittenStretch, ...] | None:
    """Two even triplets in a beat as a sextuplet, two quintuplets as ten; None for anything else."""
    if len(parts) != 2 or len({(part.count, part.end - part.start) for part in parts}) != 1:
        return None
    count = parts[0].count * 2
    if count not in (6, 10) or len(inner) != count - 1:
        return None
    return (WrittenStretch(parts[0].start, parts[1].end, count, 2 * parts[0].normal),)


def _stretches(
    cuts: tuple[Fraction, ...], start: Fraction, end: Fraction, meter: Meter
) -> tuple[WrittenStretch, ...]:
    """All time from start to end, in order; adjacent plain stretches within a bar are merged."""
    found: list[WrittenStretch] = []
    for part in _ways(cuts, start, end, meter):
        same_bar = meter.bar is None or part.start != meter.bar_start(part.start)
        if found and part.count == 1 == found[-1].count and same_bar:
            found[-1] = replace(found[-1], end=part.end)
        else:
            found.append(part)
    return tuple(replace(part, start=max(part.start, start), end=min(part.end, end)) for part in found)


def _ways(cuts: tuple[Fraction, ...], start: Fraction, end: Fraction, meter: Meter) -> list[WrittenStretch]:
    """All time from start to end, cell by cell, in the best notation."""
    bounds = [meter.cell(start)[0]]
    while bounds[-1] < end:
        bounds.append(meter.cell(bounds[-1])[1])
    if _plain(cuts, meter.origin):
        return [WrittenStretch(a, b) for a, b in pairwise(bounds)]
    edges = frozenset((*cuts, start, end))
    if any(cell != 1 for cell in meter.cells):
        # In dotted beats a tuplet may take a quarter or two.
        bounds = sorted({*bounds, *(cut for cut in cuts if cut % F(1, 2) == 0)})
    plain = {a: _divided(cuts, a, b, odd=False) for a, b in pairwise(bounds)}
    bad = [at for at, way in plain.items() if way is None]
    # For each time: the cost up to it, the previous time, and the notation from there.
    best: dict[Fraction, tuple[int, Fraction, tuple[WrittenStretch, ...]]] = {bounds[0]: (0, bounds[0], ())}
    for at, cell_end in pairwise(bounds):
        if at not in best:
            continue  # inside a triplet over several beats
        for way in _written_from(cuts, plain[at], bad, at, cell_end, end, meter):
            until = way[-1].end
            cost = best[at][0] + sum(_cost(part, edges, meter) for part in way)
            if until not in best or cost < best[until][0]:
                best[until] = (cost, at, way)
    made: list[WrittenStretch] = []
    at = min((time for time in best if time >= end), key=lambda time: best[time][0])
    while at > bounds[0]:
        _, at, way = best[at]
        made[:0] = way
    return made


def _cost(part: WrittenStretch, edges: frozenset[Fraction], meter: Meter) -> int:
    if part.count == 1:
        return 0
    if part.count == 0:
        return _UNWRITTEN
    tied = sum(_PER_TIE for at in (part.start, part.end) if at not in edges)
    length = part.end - part.start
    across = _PER_MIDDLE if length == 2 and meter.bar == 4 and (part.start - meter.origin) % 4 == 1 else 0
    return _PER_TUPLET + _PER_HALVING * part.halvings + int(_PER_BEAT * length) + tied + across


def _written_from(
    cuts: tuple[Fraction, ...],
    own: tuple[WrittenStretch, ...] | None,
    bad: list[Fraction],
    at: Fraction,
    cell_end: Fraction,
    end: Fraction,
    meter: Meter,
) -> Iterator[tuple[WrittenStretch, ...]]:
    """The ways to write the cell at a time, alone or with following cells in one tuplet.

    own     its notation in plain values or triplets, or None
    bad     the starts of cells without such a notation
    """
    triplet = _wide_triplet(cuts, at, meter)
    if triplet is not None:
        yield (triplet,)
        return
    if own is not None:
        yield own
    else:
        yield (WrittenStretch(at, cell_end, 0),)
        odd = _divided(cuts, at, min(cell_end, end), odd=True)
        if odd is not None and (end - at) % _SHORTEST == 0:
            yield odd
    for until in _ends(cuts, at, cell_end, end, meter):
        if bad and bisect_left(bad, at) < bisect_left(bad, until):
            found = _tuplet(cuts, at, until)
            if found is not None:
                yield (found,)


def _ends(
    cuts: tuple[Fraction, ...], at: Fraction, cell_end: Fraction, end: Fraction, meter: Meter
) -> Iterator[Fraction]:
    """Where a tuplet over more than one cell that begins at a time may end: in the same bar, and in even meters not
    after three beats; the last one may be cut short by the end of everything."""
    bar_end = meter.bar_end(at)
    last = at + _WIDEST if bar_end is None else min(at + _WIDEST, bar_end)
    if any(cell != 1 for cell in meter.cells):
        between = cuts[bisect_right(cuts, cell_end) : bisect_right(cuts, last)]
        yield from (cut for cut in between if cut % F(1, 2) == 0)
        return
    even = meter.bar is not None and meter.bar % 2 == 0
    offset = at - meter.bar_start(at)
    for width in range(2, _WIDEST + 1):
        until = min(at + width, end)
        if cell_end < until <= last and not (even and (width == 3 or (width == 4 and offset % 4))):
            yield until


# --- values within a stretch ---------------------------------------------------------------------------------


def _pieces(slots: tuple[Slot, ...], start: Fraction, end: Fraction) -> Iterator[tuple[Slot, Fraction, Fraction]]:
    for slot in slots:
        if slot.start < end and start < slot.end:
            yield slot, max(slot.start, start), min(slot.end, end)


def _in_tuplet(slots: tuple[Slot, ...], stretch: WrittenStretch, meter: Meter) -> Iterator[Leaf]:
    factor = F(stretch.normal, stretch.count)
    group = floor(meter.cell(stretch.start)[0] * 2)
    for slot, a, b in _pieces(slots, stretch.start, stretch.end):
        begins, ends = (a - stretch.start) / factor, (b - stretch.start) / factor
        # Nobody counts half a quintuplet: a value may be anywhere in it.
        whole = stretch.count > 3 and is_value(ends - begins)
        lengths = [ends - begins] if whole or not slot.valued else _within(begins, ends)
        yield from _written(slot, a, lengths, factor, group=group)


def _in_plain(slots: tuple[Slot, ...], start: Fraction, end: Fraction, meter: Meter) -> Iterator[Leaf]:
    for slot, a, b in _pieces(slots, start, end):
        if slot.kind == "point":
            # Without bars a long rest is cut, so that a line can break in it.
            lengths = [b - a] if meter.bar is not None else [*([_CUT] * int((b - a) // _CUT)), (b - a) % _CUT]
            yield from _written(slot, a, [length for length in lengths if length], F(1), group=0)
        elif slot.kind == "rest" or (slot.kind == "stroke" and a != slot.start):
            yield from _rests(slot, a, b, meter)
        else:
            origin = slot.start if meter.bar is None else meter.bar_start(a)
            lengths = _values(a, b, meter, origin)
            if slot.kind == "stroke":
                lengths = lengths[:1]
            yield from _written(slot, a, lengths, F(1), group=None, meter=meter)
            if slot.kind == "stroke":
                yield from _rests(slot, a + lengths[0], b, meter)


def _written(
    slot: Slot,
    at: Fraction,
    lengths: list[Fraction],
    factor: Fraction,
    group: int | None,
    meter: Meter = FREE,
) -> Iterator[Leaf]:
    """Leaves of the given values; of moving slots and points only the first is printed."""
    kinds: dict[SlotKind, LeafKind] = {
        "note": "note",
        "moving": "note",
        "stroke": "note",
        "point": "point",
        "rest": "rest",
    }
    once = slot.kind in ("moving", "point")
    for n, length in enumerate(lengths):
        first = at == slot.start
        if once and not first:
            skipped = lengths[n:] if slot.kind == "point" else [sum(lengths[n:], F(0))]
            for length in skipped:
                yield Leaf(key=slot.key, at=at, value=length, kind="skip")
                at += length
            return
        beam = group if group is not None else floor(meter.cell(at)[0] * 2)
        tied = slot.kind == "note" and at + length * factor < slot.end
        kind = kinds[slot.kind] if first or slot.kind != "stroke" else "rest"
        yield Leaf(key=slot.key, at=at, value=length, kind=kind, first=first, tied=tied, group=beam)
        at += length * factor


def _within(a: Fraction, b: Fraction) -> list[Fraction]:
    """Values from a to b inside a cell that begins at 0, split where a subdivision must be visible."""
    if a == b:
        return []
    length = b - a
    if is_value(length):
        base = length * F(2, 3) if length.numerator == 3 else length
        dotted = base != length
        if a % base == 0 or (b % base == 0 and dotted) or (a % (base / 2) == 0 and not dotted):
            return [length]
    unit = F(2)
    while True:
        split = (a // unit + 1) * unit
        if split < b:
            return _within(a, split) + _within(split, b)
        unit /= 2


def _values(a: Fraction, b: Fraction, meter: Meter, origin: Fraction) -> list[Fraction]:
    """Values from a to b in plain time: whole cells as one value if possible, syncopation only within a half
    bar."""
    if a == b:
        return []
    start, end = meter.cell(a)
    if b <= end:
        return _within(a - start, b - start)
    if a == start:
        length = _over_cells(a, b, meter)
        return [length, *_values(a + length, b, meter, origin)]
    offset = a - meter.bar_start(a)
    strong = int(start - meter.bar_start(a)) % 2 == 0
    if end - start == 1 and offset % 1 == F(1, 2) and strong and b - a in (F(1), F(3, 2)):
        return [b - a]
    return _within(a - start, end - start) + _values(end, b, meter, origin)


def _over_cells(a: Fraction, b: Fraction, meter: Meter) -> Fraction:
    """The longest value from the start of a cell that ends at the end of a cell, at b or before."""
    best = meter.cell(a)[1] - a
    until = a
    while until < b and until - a < _LONGEST + 2:
        until = meter.cell(until)[1]
        length = until - a
        if until <= b and is_value(length) and (length <= _LONGEST or until == b):
            best = length
    # A dotted value may end inside a cell if it fills the rest of a half bar.
    if meter.cells[0] == 1 and b - a == F(3, 2) and int(a - meter.bar_start(a)) % 2 == 0:
        return b - a
    return best


def _rests(slot: Slot, a: Fraction, b: Fraction, meter: Meter) -> Iterator[Leaf]:
    """Rests show the beats: only a whole cell may be dotted, and nothing crosses the middle of a bar."""
    at = a
    while at < b:
        bar_end = meter.bar_end(at)
        kind: LeafKind = "rest"
        length = _rest(at, b, meter)
        if bar_end is not None and at == meter.bar_start(at) and bar_end <= b:
            kind, length = "bar-rest", bar_end - at
        yield Leaf(key=slot.key, at=at, value=length, kind=kind, first=at == slot.start)
        at += length


def _rest(at: Fraction, b: Fraction, meter: Meter) -> Fraction:
    start, end = meter.cell(at)
    if at == start and b >= end:
        base = meter.bar_start(at)
        simple = all(cell == 1 for cell in meter.cells)
        for length in (F(4), F(2)):
            aligned = meter.bar is None or ((at - base) % length == 0 and meter.bar % length == 0)
            if simple and aligned and at + length <= b:
                return length
        return end - at if is_value(end - at) else F(1)
    offset = at - start
    length = F(2)
    while length > _SHORTEST and (offset % length != 0 or at + length > min(b, end)):
        length /= 2
    return length


def _with_lasts(made: list[Leaf | Tuplet]) -> Iterator[Leaf | Tuplet]:
    """Mark the last leaf of each event."""
    last = {leaf.key: leaf for item in made for leaf in (item.leaves if isinstance(item, Tuplet) else (item,))}

    def marked(leaf: Leaf) -> Leaf:
        return replace(leaf, last=True) if last[leaf.key] is leaf else leaf

    for item in made:
        if isinstance(item, Tuplet):
            yield replace(item, leaves=tuple(marked(leaf) for leaf in item.leaves))
        else:
            yield marked(item)
