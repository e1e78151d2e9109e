"""The fixes that rules propose, before the checker judges them: what each would write to the file."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rules.checking import checked, findings, horn
from rules.proposed import pair, pairs

from gesturesmith.rules import all_rules
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.doc import sections

FOUR = "contour: C5, D5@1, E5@2, F5@3\nlasts: 4 beats"


def case(body: str, *, tempo: int = 60):
    return checked(horn(body, tempo=tempo)).cases["a"]


def values(changes) -> list[str]:
    """The new value of each change of one key."""
    return [value for ((_, value),) in pairs(changes)]


@pytest.mark.parametrize(
    ("technique", "keys", "rows"),
    [
        ("bend", ("lip-gliss",), ["lip-gliss"]),
        ("bend + growl", ("lip-gliss", "hand-gliss"), ["lip-gliss + growl", "hand-gliss + growl"]),
        ("growl + bend", ("lip-gliss",), ["growl + lip-gliss"]),
        ("growl + bend", ("chromatic", "growl", "kiss"), []),  # not of its kin
        ("growl + bend", (), ["growl + lip-gliss", "growl + hand-gliss"]),
    ],
)
def test_another_technique_on_its_layer(technique, keys, rows):
    changes = pairs(fixes.instead(case(f"technique: {technique}\ncontour: C5 -- B4"), "motion", *keys))
    assert changes == tuple((("technique", row),) for row in rows)


@pytest.mark.parametrize(
    ("technique", "keys", "row"),
    [
        ("scoop + growl", ("scoop",), "growl"),
        ("scoop + growl + stopped", ("scoop",), "growl + stopped"),
        ("scoop + growl", ("growl", "scoop"), "ordinary"),
        ("bend", ("x",), "bend"),
        ("bend + growl", ("bend",), ""),  # the plain note is no bend
        ("kiss", ("kiss",), ""),
        ("kiss + brassy", ("kiss",), "brassy"),  # they exclude each other: one has to go
    ],
)
def test_without_a_technique(technique, keys, row):
    """Only if the plain note, or what remains, can replace it."""
    found = case(f"technique: {technique}\ncontour: C5 -- B4")
    assert pairs(fixes.without(found, *keys)) == (((("technique", row),),) if row else ())


@pytest.mark.parametrize(
    ("tempo", "seconds", "words"),
    [
        (60, 1.0, ["1 beat"]),
        (60, 0.1, ["1 beat"]),
        (60, 1.01, ["2 beats"]),
        (90, 2.0, ["3 beats"]),
        (60, 64.0, ["64 beats"]),
        (60, 64.1, []),
    ],
)
def test_a_length_in_whole_beats(tempo, seconds, words):
    changes = pairs(fixes.lasting(case("contour: C5\nlasts: 1 beat", tempo=tempo).gesture, seconds))
    assert changes == tuple((("lasts", w),) for w in words)


@pytest.mark.parametrize(
    ("seconds", "words"),
    [
        (1.0, ["1 s"]),
        (0.1, ["0.1 s"]),
        (0.3, ["0.3 s"]),
        (0.31, ["0.4 s"]),
        (0.0, []),
        (99999.9, ["99999.9 s"]),
        (100000.0, []),
    ],
)
def test_a_length_in_tenths_of_a_second(seconds, words):
    changes = pairs(fixes.lasting(case("contour: C5\nlasts: 1 s", tempo=90).gesture, seconds))
    assert changes == tuple((("lasts", w),) for w in words)


def test_slower_is_rounded_up():
    gesture = case("contour: C5\nlasts: 2 beats", tempo=120).gesture
    assert values(fixes.slower(gesture, 1.0)) == ["2 beats"]
    assert values(fixes.slower(gesture, 1.2)) == ["3 beats"]


@pytest.mark.parametrize(
    ("body", "stretch", "after"),
    [
        (FOUR, (), [(1,), (0, 1, 2)]),
        (FOUR, (Fraction(1), Fraction(3)), [(1,)]),
        (FOUR, (Fraction(0), Fraction(3)), [(0,), (0, 1)]),
        (FOUR, (Fraction(2), Fraction(3)), []),
        ("contour: C5, D5, E5, F5, E5, D5, C5, D5\nlasts: 8 beats", (), [(3,), (1, 3, 5)]),
        ("contour: C5 __ D5@1, E5@2 -- F5@3\nlasts: 4 beats", (), [(1,)]),
        ("contour: C5, D5@1 __ E5@2, F5@3\nlasts: 4 beats", (), [(0,), (0, 2)]),
        ("contour: C5, r@1, E5@2, F5@3\nlasts: 4 beats", (), [(2,)]),
        ("contour: C5, D5@1, r@2, F5@3\nlasts: 4 beats", (), [(0,)]),
        ("contour: C5, D5@1 breath, E5@2, F5@3\nlasts: 4 beats", (), [(0,), (0, 2)]),
        ("contour: C5 __ D5", (), []),
        ("contour: C5", (), []),
    ],
)
def test_breaths_after_detached_notes(body, stretch, after):
    """First in the middle of a stretch, then at each quarter; the earlier of two equally near."""
    changes = pairs(fixes.breaths(case(body).gesture, *stretch))
    assert changes == tuple(tuple((f"after {i}", " breath") for i in places) for places in after)


def test_a_slur_can_end_at_a_breath():
    slurred = case("contour: C5 __ D5@1 -- E5@2 __ F5@3\nlasts: 4 beats").gesture
    middle, each = pairs(fixes.breaths(slurred, slurs=True))
    assert middle == (("after 0", " breath"), ("line 0", ","))
    assert each == (("after 0", " breath"), ("after 2", " breath"), ("line 0", ","), ("line 2", ","))
    detached = case("contour: C5, D5@1 __ E5@2\nlasts: 3 beats").gesture
    assert pairs(fixes.breaths(detached, slurs=True)) == ((("after 0", " breath"),),)


def test_about_is_an_x_without_cents():
    gesture = case("contour: C5+20c, xD5, Eb5, r, F#^5").gesture
    assert fixes.exact_points(gesture) == (0, 2, 4)
    assert pairs(fixes.about(gesture, 0, 1, 2, 3, 4)) == (
        (("point 0", "xC5"), ("point 2", "xEb5"), ("point 4", "xF#^5")),
    )
    assert fixes.about(gesture, 1, 3) == ()
    assert fixes.about(gesture) == ()


@pytest.mark.parametrize(
    ("contour", "index", "sounding", "written"),
    [
        ("C5, D5", 1, 6549, "C5"),
        ("C5, D5", 1, 6551, "C#5"),
        ("C5, xD5", 1, 6600, "xC#5"),
        ("C5 -- D5", 1, 6549, ""),
        ("C5 -- D5", 0, 6700, ""),
        ("C5 -- D5, E5", 1, 6900, "E5"),
        ("C5, D5 -- E5", 1, 6900, ""),
        ("C5 __ D5", 1, 6500, "C5"),
    ],
)
def test_a_point_goes_to_the_nearest_note_unless_its_line_would_go_nowhere(contour, index, sounding, written):
    """Sounding 6500 is F4, written C5."""
    changes = pairs(fixes.at_pitch(case(f"contour: {contour}"), index, sounding))
    assert changes == (((((f"point {index}", written)),),) if written else ())


def test_a_height_is_moved_to_no_pitch():
    assert fixes.at_pitch(case("band: C4..C5\ncontour: low, high"), 0, 6500) == ()


@pytest.mark.parametrize(
    ("body", "semitones", "moved"),
    [
        ("contour: C5, xD5, r, Eb5", 12, ["C6", "xD6", "Eb6"]),
        ("contour: C5, Cb5, B#4", -12, ["C4", "Cb4", "B#3"]),
        ("contour: C5, E5", 2, ["D5", "F#5"]),
        ("contour: C5-14c, C5+31c", 12, ["C6-14c", "C6+31c"]),
        ("band: C4..C5\ncontour: low, high", 12, ["C5..C6"]),
        ("band: C4..C5\ncontour: low, E4", 12, ["E5", "C5..C6"]),
        ("band: middle\ncontour: low, high", 12, []),
        ("band: middle\ncontour: low, C5", 12, []),
        ("contour: C3", -36, ["C0"]),
        ("contour: C3, C5", -48, []),
        ("band: C3..C5\ncontour: low, high", -48, []),
        ("contour: C5", 48, ["C9"]),
        ("contour: C5", 60, []),
    ],
)
def test_everything_moved(body, semitones, moved):
    found = case(body)
    changes = tuple(map(pair, fixes.all_moved(found, semitones)))
    assert [value for _, value in changes] == moved
    for key, _ in changes:
        kind, _, index = key.partition(" ")
        assert kind == "band" or found.gesture.points[int(index)].pitch is not None
    assert pairs(fixes.moved(semitones)) == ((("move", str(semitones)),),)


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: rule.name)
def test_rules_move_a_gesture_by_octaves(rule):
    """Its notes keep their names."""
    found = findings(sections(rule.doc)["Fires"])
    moves = [value for f in found for fix in pairs(f.proposed_fixes) for key, value in fix if key == "move"]
    assert all(int(value) % 12 == 0 for value in moves)


@pytest.mark.parametrize(
    ("dynamics", "most", "least"),
    [
        ("", [], []),
        ("ff", ["mf"], []),
        ("mf", [], []),
        ("pp", [], ["mf"]),
        ("p < ff", ["p < mf"], ["mf < ff"]),
        ("n < ff", ["n < mf"], []),
        ("n < pp@1 < ff@2", ["n < pp@1 < mf@2"], ["n < mf@1 < ff@2"]),
        ("fff > p", ["mf > p"], ["fff > mf"]),
        ("ff < fff@1 > f", ["mp < mf@1 > p"], []),
        ("f < ff > f", ["mp < mf > mp"], []),
        ("ff ppp@1", ["mf ppp@1"], ["ff mf@1"]),
        ("ppp < pp < p < mp@2", [], ["mf < f@2/3 < ff@4/3 < fff@2"]),
        ("pp < p < mp < mf < f < ff < fff", [], []),  # there are not levels enough below
        ("sfz", [], []),  # no accent is that soft
        ("sffz > p", [], ["sffz > mf"]),
    ],
)
def test_dynamics_are_brought_down_or_up_along_their_shape(dynamics, most, least):
    """Rises stay rises and falls stay falls, all times stay, and so does niente."""
    lines = f"dynamics: {dynamics}\nlasts: 8 beats" if dynamics else "lasts: 8 beats"
    gesture = case(f"contour: C5, D5\n{lines}").gesture
    assert values(fixes.at_most(gesture, "mf")) == most
    assert values(fixes.at_least(gesture, "mf")) == least


def test_where_nothing_is_written_mf_is_brought_down():
    assert values(fixes.at_most(case("contour: C5").gesture, "p")) == ["p"]


def test_places_in_seconds_stay_in_seconds():
    gesture = case("contour: C5\nlasts: 3 s\ndynamics: p < ff@2.5 > p", tempo=90).gesture
    assert values(fixes.at_most(gesture, "f")) == ["p < f@2.5 > p"]


def test_levels_at_points_are_brought_down_where_they_stand():
    gesture = case("contour: C5 ff, D5, E5 pp").gesture
    assert pairs(fixes.at_most(gesture, "mf")) == ((("level 0", "mf"), ("level 2", "pp")),)
    assert pairs(fixes.at_least(gesture, "p")) == ((("level 0", "ff"), ("level 2", "p")),)


@given(st.lists(st.integers(0, 12), min_size=1, max_size=8), st.integers(-1, 14))
def test_the_nearest_of_times_is_the_first_of_equals(times, goal):
    rising = [Fraction(at) for at in sorted(times)]
    found = fixes._nearest(rising, Fraction(goal, 2))
    assert found == min(range(len(rising)), key=lambda i: (abs(rising[i] - Fraction(goal, 2)), i))
