"""Note values as a copyist writes them: lengths, ties, splits at beats and bars, triplets, rests, stemless points.

The expected values follow common practice (whole beats in one value, the middle of a bar kept visible, rests by
the beat). Notation of this table: n note, p stemless point, r rest, b rest of a whole bar, s nothing printed; the
number is the value in beats; ~ tied on; { } a triplet, 5:4{ } another tuplet.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gesturesmith.score.rhythm import FREE, Leaf, Meter, Slot, Tuplet, is_value, leaves, meter_of, settled

F = Fraction
LENGTHS = [F(1, 16), F(1, 4), F(1, 2), F(3, 4), F(1), F(3, 2), F(1, 3), F(2, 3), F(5), F(2, 5)]


def written(slots: list[Slot], meter: Meter) -> str:
    ready = settled(tuple(slots), (0,) * len(slots), meter)
    return " ".join(
        f"{ratio(item)}{{{' '.join(map(shown, item.leaves))}}}" if isinstance(item, Tuplet) else shown(item)
        for item in leaves(ready, meter)
    )


def ratio(item: Tuplet) -> str:
    return "" if item.count == 3 else f"{item.count}:{item.normal}"


def shown(leaf: Leaf) -> str:
    letter = {"note": "n", "point": "p", "rest": "r", "bar-rest": "b", "skip": "s"}[leaf.kind]
    return f"{letter}{leaf.value}{'~' if leaf.tied else ''}"


def row(kinds: str, *times: str) -> list[Slot]:
    """Slots that begin and end at the given times; one letter each: n, m (moving), k (stroke), p, r."""
    full = {"n": "note", "m": "moving", "k": "stroke", "p": "point", "r": "rest"}
    edges = list(pairwise(F(t) for t in times))
    return [Slot(a, b, full[kind], n) for n, (kind, (a, b)) in enumerate(zip(kinds, edges, strict=True))]


FREE_ROWS = (
    # lengths from the beat
    ("n", "0 1/16", "n1/16"),
    ("n", "0 3/4", "n3/4"),
    ("n", "0 1", "n1"),
    ("n", "0 3/2", "n3/2"),
    ("n", "0 5/2", "n2~ n1/2"),
    ("n", "0 3", "n3"),
    ("n", "0 4", "n4"),
    ("n", "0 5", "n4~ n1"),
    ("n", "0 6", "n6"),
    ("n", "0 7", "n4~ n3"),
    ("n", "0 9", "n4~ n4~ n1"),
    # inside the beat, off the beat
    ("nnn", "0 1/4 3/4 1", "n1/4 n1/2 n1/4"),
    ("nn", "0 1/4 1", "n1/4 n3/4"),
    ("nnn", "0 1/2 3/2 2", "n1/2 n1 n1/2"),
    ("nnn", "0 3/2 5/2 3", "n3/2 n1/2~ n1/2 n1/2"),
    ("nn", "0 1/8 1", "n1/8 n3/8~ n1/2"),
    # triplets
    ("nnn", "0 1/3 2/3 1", "{n1/2 n1/2 n1/2}"),
    ("nn", "0 1/3 1", "{n1/2 n1}"),
    ("nnn", "0 2/3 4/3 2", "{n1 n1 n1}"),
    ("nnn", "0 4/3 8/3 4", "{n2 n2 n2}"),
    ("nnnn", "0 1/2 2/3 5/6 1", "n1/2 {n1/4 n1/4 n1/4}"),
    ("nnn", "0 1/24 1/12 1/8", "{n1/16 n1/16 n1/16}"),
    ("nn", "0 1/3 2", "{n1/2 n1~} n1"),
    # what no value can express is stemless as a whole
    ("nn", "0 4/5 8/5", "p4/5 p4/5"),
    ("nrn", "0 1/7 36/37 2", "p1/7 p215/259 p38/37"),
    ("n", "0 1/32", "p1/32"),
    # other tuplets: five, seven, nine, eleven in the time of fewer; six and ten are even
    ("nnnnn", "0 1/5 2/5 3/5 4/5 1", "5:4{n1/4 n1/4 n1/4 n1/4 n1/4}"),
    ("nnn", "0 2/5 4/5 1", "5:4{n1/2 n1/2 n1/4}"),
    ("nn", "0 1/5 1", "5:4{n1/4 n1}"),
    ("nnnnnn", "0 1/6 1/3 1/2 2/3 5/6 1", "6:4{n1/4 n1/4 n1/4 n1/4 n1/4 n1/4}"),
    ("nnnnn", "0 1/3 1/2 2/3 5/6 1", "{n1/2 n1/4} {n1/4 n1/4 n1/4}"),
    ("nnnnnnn", "0 1/7 2/7 3/7 4/7 5/7 6/7 1", "7:4{n1/4 n1/4 n1/4 n1/4 n1/4 n1/4 n1/4}"),
    ("nnnnn", "0 2/5 4/5 6/5 8/5 2", "5:4{n1/2 n1/2 n1/2 n1/2 n1/2}"),
    ("nnnnn", "0 4/5 8/5 12/5 16/5 4", "5:4{n1 n1 n1 n1 n1}"),
    ("nnnnn", "0 3/5 6/5 9/5 12/5 3", "5:3{n1 n1 n1 n1 n1}"),
    ("nnnnn", "0 3/10 3/5 9/10 6/5 3/2", "5:3{n1/2 n1/2 n1/2 n1/2 n1/2}"),
    ("nnnnnnn", "0 3/7 6/7 9/7 12/7 15/7 18/7 3", "7:6{n1/2 n1/2 n1/2 n1/2 n1/2 n1/2 n1/2}"),
    ("nnnn", "0 1/2 3/5 7/10 1", "n1/2 5:4{n1/8 n1/8 n3/8}"),
    ("nnnnnn", "1 6/5 7/5 8/5 9/5 2 3", "5:4{n1/4 n1/4 n1/4 n1/4 n1/4} n1"),
    ("nrnn", "0 1/5 3/5 4/5 1", "5:4{n1/4 r1/2 n1/4 n1/4}"),
    ("nnnnn", "0 2/5 4/5 6/5 8/5 3", "5:4{n1/2 n1/2 n1/2 n1/2 n1/2~} n1"),
    # a note is tied out of it where it must be
    ("nn", "0 1/5 2", "5:4{n1/4 n1~} n1"),
    # points on a line; a sliding note has one head
    ("mpp", "0 2 3 4", "n2 p1 p1"),
    ("mp", "0 5 6", "n4 s1 p1"),
    ("mp", "0 2/3 1", "{n1 p1/2}"),
    ("npn", "0 1 38/37 2", "p1 p1/37 p36/37"),
    # a long rest is cut, so that a line can break in it
    ("pp", "0 9 10", "p4 s4 s1 p1"),
    # a stroke ends at once: its value, then rests
    ("kk", "0 1 5/2", "n1 n1 r1/2"),
    ("kn", "0 5/2 3", "n2 r1/2 n1/2"),
    ("kkn", "0 1/3 4/3 2", "{n1/2 n1} {r1/2 n1}"),
    # rests
    ("r", "0 4", "r4"),
    ("r", "0 3", "r2 r1"),
    ("nrn", "0 1/4 3/2 2", "n1/4 r1/4 r1/2 r1/2 n1/2"),
)


@pytest.mark.parametrize(("kinds", "times", "expected"), FREE_ROWS)
def test_without_bars(kinds: str, times: str, expected: str) -> None:
    assert written(row(kinds, *times.split()), FREE) == expected


BARRED_ROWS = (
    ("4/4", "nn", "0 3 6", "n3 n1~ n2"),
    ("4/4", "n", "0 9", "n4~ n4~ n1"),
    ("4/4", "nnn", "0 1/2 3/2 2", "n1/2 n1 n1/2"),
    ("4/4", "nnn", "0 3/2 5/2 4", "n3/2 n1/2~ n1/2 n3/2"),
    ("4/4", "nnn", "0 1 3 4", "n1 n2 n1"),
    ("4/4", "rrn", "0 8 17/2 12", "b8 r1/2 n1/2~ n3"),
    ("4/4", "nrn", "0 1 3 4", "n1 r1 r1 n1"),
    ("4/4", "nr", "0 2 4", "n2 r2"),
    ("4/4", "mp", "0 6 8", "n4 s2 p2"),
    ("4/4", "mp", "0 2 6", "n2 p2 s2"),
    ("4/4", "nk", "0 3 8", "n3 n1 b4"),
    ("4/4", "p", "0 9", "p4 s4 s1"),
    ("4/4", "nnn", "4 16/3 20/3 8", "{n2 n2 n2}"),
    ("4/4", "nnnn", "0 2 8/3 10/3 4", "n2 {n1 n1 n1}"),
    ("3/4", "nn", "0 1/2 7/4", "n1/2 n1/2~ n3/4"),
    ("3/4", "nr", "0 1 3", "n1 r1 r1"),
    ("3/4", "r", "0 6", "b6"),
    ("6/8", "nnnn", "0 3/2 5/2 3 6", "n3/2 n1 n1/2 n3"),
    ("6/8", "nn", "0 1 3", "n1 n1/2~ n3/2"),
    ("5/8", "nn", "0 1 5/2", "n1 n3/2"),
    ("2/2", "nn", "0 1 4", "n1 n3"),
    ("4/4", "nnnnnn", "0 2 12/5 14/5 16/5 18/5 4", "n2 5:4{n1/2 n1/2 n1/2 n1/2 n1/2}"),
    ("4/4", "nnnnnnn", "0 1 7/5 9/5 11/5 13/5 3 4", "n1 5:4{n1/2 n1/2 n1/2 n1/2 n1/2} n1"),
    (
        "4/4",
        "nnnnnnnnnnn",
        "0 1/5 2/5 3/5 4/5 1 7/5 9/5 11/5 13/5 3 4",
        "5:4{n1/4 n1/4 n1/4 n1/4 n1/4} 5:4{n1/2 n1/2 n1/2 n1/2 n1/2} n1",
    ),
    ("3/4", "nnnnn", "0 3/5 6/5 9/5 12/5 3", "5:3{n1 n1 n1 n1 n1}"),
    ("6/8", "nnnnnn", "0 3/10 3/5 9/10 6/5 3/2 3", "5:3{n1/2 n1/2 n1/2 n1/2 n1/2} n3/2"),
    ("6/8", "nnnnnnn", "0 3/14 3/7 9/14 6/7 15/14 9/7 3/2", "7:6{n1/4 n1/4 n1/4 n1/4 n1/4 n1/4 n1/4}"),
    ("6/8", "nnnnnnnn", "0 2/7 4/7 6/7 8/7 10/7 12/7 2 3", "7:4{n1/2 n1/2 n1/2 n1/2 n1/2 n1/2 n1/2} n1"),
    ("6/8", "nnnn", "0 1 7/6 4/3 3/2", "n1 {n1/4 n1/4 n1/4}"),
)


@pytest.mark.parametrize(("signature", "kinds", "times", "expected"), BARRED_ROWS)
def test_with_bars(signature: str, kinds: str, times: str, expected: str) -> None:
    count, unit = map(int, signature.split("/"))
    assert written(row(kinds, *times.split()), meter_of((count, unit))) == expected


def test_only_what_is_uneven_is_without_values() -> None:
    """A 37th of a beat has no value; the quarter note beside it, another gesture's, has."""
    slots = tuple(row("nnnnnnn", "0", "1/37", "2/37", "1", "4/3", "5/3", "2", "3"))
    kinds = [slot.kind for slot in settled(slots, (0, 0, 0, 0, 0, 0, 1), meter_of((6, 8)))]
    assert kinds == ["point"] * 6 + ["note"]


@given(
    st.lists(
        st.sampled_from(
            [F(1, 16), F(1, 4), F(1, 2), F(3, 4), F(1), F(3, 2), F(1, 3), F(2, 3), F(5), F(2, 5), F(1, 7)]
        )
    ),
    st.sampled_from([None, (4, 4), (3, 4), (6, 8), (5, 8), (7, 8), (2, 2), (5, 4), (3, 8)]),
    st.lists(st.sampled_from(["note", "moving", "stroke", "point", "rest"]), min_size=1, max_size=12),
)
def test_all_time_is_accounted_for(lengths: list[F], signature: tuple[int, int] | None, kinds: list[str]) -> None:
    """Leaves follow each other without gap or overlap, never cross a bar line, and last as long as the slots."""
    slots, at = [], F(0)
    for n, (kind, length) in enumerate(zip(kinds, lengths, strict=False)):
        slots.append(Slot(at, at + length, kind, n))
        at += length
    if not slots:
        return
    meter = meter_of(signature)
    now = F(0)
    for item in leaves(settled(tuple(slots), tuple(range(len(slots))), meter), meter):
        factor = item.factor if isinstance(item, Tuplet) else F(1)
        for leaf in item.leaves if isinstance(item, Tuplet) else (item,):
            assert leaf.at == now
            if leaf.kind in ("note", "rest"):
                assert is_value(leaf.value)
            bar_end = meter.bar_end(leaf.at)
            now += leaf.value * factor
            if leaf.kind == "bar-rest":
                assert leaf.at % meter.bar == leaf.value % meter.bar == 0
            else:
                assert bar_end is None or now <= bar_end
    assert now == at
