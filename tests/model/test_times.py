"""When points come, sentence by sentence of the language page's paragraph on time."""

import itertools
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gesturesmith.model import times

F = Fraction


def at(*values):
    return [None if v is None else F(v) for v in values]


# contour, lasts (None: left out), times, length in beats
TABLE = {
    "the first point is at 0": ("G4@0 ~~ C5", "4 beats", "0 4", 4),
    "a last point that a line reaches comes at the end": ("G4 ~~ C5", "4 beats", "0 4", 4),
    "unless it has an earlier time": ("G4 ~~ C5@3", "4 beats", "0 3", 4),
    "the end itself may be written": ("G4 ~~ C5@4", "4 beats", "0 4", 4),
    "every line reaches: straight": ("G4 -- C5", "4 beats", "0 4", 4),
    "every line reaches: broken": ("G4 :: C5", "4 beats", "0 4", 4),
    "every line reaches: dotted": ("G4 .. C5", "4 beats", "0 4", 4),
    "every line reaches: arrow": ("G4 -> C5", "4 beats", "0 4", 4),
    "a last point after a comma keeps a slot": ("G4, C5", "4 beats", "0 2", 4),
    "a last point after a slur keeps a slot": ("G4 __ C5", "4 beats", "0 2", 4),
    "a single point keeps a slot": ("G4", "4 beats", "0", 4),
    "n untimed points, the last detached, at i T/n": ("G4, A4, B4, C5", "3 beats", "0 3/4 3/2 9/4", 3),
    "whatever the lines before it": ("G4 ~~ A4 -- B4, C5", "3 beats", "0 3/4 3/2 9/4", 3),
    "a silence at the end keeps a slot": ("G4, r", "3 beats", "0 3/2", 3),
    "untimed points share the time to the end": ("G4 ~~ A4 ~~ B4 ~~ C5", "3 beats", "0 1 2 3", 3),
    "untimed points share what is between timed ones": (
        "G4 ~~ A4 ~~ B4@2 ~~ C5 ~~ D5 ~~ E5@3 ~~ F5",
        "4 beats",
        "0 1 2 7/3 8/3 3 4",
        4,
    ),
    "and before a detached last point's slot": ("G4, A4@2, B4, C5", "5 beats", "0 2 3 4", 5),
    "a timed detached last point": ("G4, A4, B4@3", "4 beats", "0 3/2 3", 4),
    "fractions and decimals are exact": ("G4 ~~ A4@1/3 ~~ B4@0.7 ~~ C5", "1 beat", "0 1/3 7/10 1", 1),
    "one beat a point when lasts is missing": ("G4, A4, B4", None, "0 1 2", 3),
    "one beat a point with lines as well": ("G4 ~~ C5", None, "0 2", 2),
    "one beat for a single point": ("G4", None, "0", 1),
    "with times, at least the last": ("G4 ~~ C5@5", None, "0 5", 5),
    "plus a beat for each untimed point after it": ("G4 ~~ C5@5 ~~ D5 ~~ E5", None, "0 5 6 7", 7),
    "plus one where the last point is detached": ("G4 ~~ C5@5, D5", None, "0 5 6", 7),
    "plus one where the timed last point is detached": ("G4, C5@5", None, "0 5", 6),
    "never below one beat a point": ("G4 ~~ C5@3/2", None, "0 3/2", 2),
    "never below one beat a point, detached": ("G4, A4@1/2, B4@1", None, "0 1/2 1", 3),
    "times in seconds where lasts is in seconds": ("G4 ~~ A4@1/2 ~~ C5", "2.5 s", "0 1/2 5/2", F(5, 2)),
}


@pytest.mark.parametrize(("contour", "lasts", "expected", "length"), TABLE.values(), ids=TABLE.keys())
def test_every_sentence_of_the_page(gesture, contour, lasts, expected, length):
    made = gesture(f"contour: {contour}", *([f"lasts: {lasts}"] if lasts else []))
    assert [p.at for p in made.points] == [F(x) for x in expected.split()]
    assert made.beats == length
    assert [p.until for p in made.points] == [*(p.at for p in made.points[1:]), made.beats]


def test_seconds_become_beats_at_the_tempo(gesture):
    made = gesture(
        "contour: G4 ~~ A4@1 ~~ C5", "lasts: 2.5 s", top="instrument: horn\npitches: written\ntempo: 90\n"
    )
    assert made.in_seconds
    assert made.beats == F(15, 4)  # 2.5 s at 90 beats a minute
    assert [made.seconds_at(p.at) for p in made.points] == [0, 1, F(5, 2)]
    assert made.seconds == F(5, 2)


FAULTS = {
    "the first is always at 0": (at(1, None), False, 4, [(0, "first-point-late")]),
    "times rise": (at(None, 3, 2, None), False, 4, [(2, "times-fall")]),
    "strictly": (at(None, 2, 2, None), False, 4, [(2, "times-fall")]),
    "nothing comes at 0 but the first": (at(None, 0, None), False, 4, [(1, "times-fall")]),
    "each one that falls behind the latest is named": (
        at(None, 3, 2, 1),
        False,
        4,
        [(2, "times-fall"), (3, "times-fall")],
    ),
    "none passes the end": (at(None, 5), False, 4, [(1, "past-end")]),
    "a detached last point comes before the end": (at(None, 4), True, 4, [(1, "no-slot-left")]),
    "time is left for the points after": (at(None, 4, None), False, 4, [(1, "no-slot-left")]),
    "a line may reach the end": (at(None, 4), False, 4, []),
}


@pytest.mark.parametrize(("given_times", "detached", "length", "expected"), FAULTS.values(), ids=FAULTS.keys())
def test_times_that_cannot_be(given_times, detached, length, expected):
    found = times.faults(given_times, detached=detached, length=F(length))
    assert [(f.index, f.rule) for f in found] == expected


@st.composite
def written_times(draw):
    """Valid times: some points timed, in increasing order before the end."""
    count = draw(st.integers(1, 12))
    detached = count == 1 or draw(st.booleans())
    steps = draw(st.lists(st.fractions(F(1, 64), 9), min_size=count, max_size=count))
    rising = [sum(steps[:i], F(0)) for i in range(count)]
    keep = draw(st.lists(st.booleans(), min_size=count, max_size=count))
    return [t if k else None for t, k in zip(rising, keep, strict=True)], detached, sum(steps, F(0))


@given(written_times())
def test_spread_keeps_what_is_written_and_rises_to_the_end(case):
    written, detached, length = case
    assert times.faults(written, detached=detached, length=length) == []
    found = times.spread(written, detached=detached, length=length)
    assert len(found) == len(written)
    assert found[0] == 0
    assert all(a < b for a, b in itertools.pairwise(found))
    assert all(w is None or w == f for w, f in zip(written, found, strict=True))
    assert found[-1] < length if detached or written[-1] is not None else found[-1] == length


@given(written_times())
def test_untimed_points_share_evenly(case):
    written, detached, length = case
    found = [*times.spread(written, detached=detached, length=length), length]
    for i in range(1, len(written)):
        if written[i] is None and i < len(found) - 1 and found[i] < length:
            assert found[i] - found[i - 1] == found[i + 1] - found[i]


@given(written_times())
def test_the_usual_length_leaves_room_for_every_time(case):
    written, detached, _ = case
    usual = times.usual_length(written, detached=detached)
    assert times.faults(written, detached=detached, length=usual) == []
    assert usual >= len(written)
