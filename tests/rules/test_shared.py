"""Shared parts of the rules in cases that no current instrument shows: other limits, odd numbers."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from rules.checking import checked, findings, horn
from rules.inside import inside
from rules.proposed import pairs

from gesturesmith import instruments, rules, techniques
from gesturesmith.diagnostics import Severity
from gesturesmith.evidence import HOUSE, PUBLISHED, Limit, Sourced
from gesturesmith.realise import curve
from gesturesmith.rules.shared import account, limits, reading
from gesturesmith.rules.shared.doc import sections

HORN = instruments.get("horn")
HEAD = "instrument: horn\npitches: written\ntempo: 60\n\n"
SHORT = "gesture a\n  contour: C5\n  lasts: 1 beat\n  dynamics: mf\n"
SECOND = HORN.limits["effort_high"].narrow.value  # the effort of one second of it


def sourced(value, kind=HOUSE, source="a page"):
    return Sourced(value, kind, source)


# --- limits ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("number", [5000.0, 30, 0.001, 0])
def test_what_is_lost_in_binary_fractions_passes_no_limit(number):
    """Six positions in 0.2 s are 30.000000000000014 a second."""
    there = Limit(sourced(number), None, "unit")
    assert limits.above(there, number * (1 + 5e-10)) is None
    assert limits.below(there, number * (1 - 5e-10)) is None
    assert limits.above(there, number * (1 + 1e-8) + 1e-12) is not None
    assert limits.below(there, number * (1 - 1e-8) - 1e-12) is not None


def along(monkeypatch, low: Limit, high: Limit, cents: float) -> Limit:
    """Read between the middles of the two lowest registers, whose limits are replaced."""
    names = [r.name for r in HORN.registers]
    for name in names:
        monkeypatch.setitem(inside(HORN.limits), f"made_up_{name}", low if name == names[0] else high)
    curve._along.cache_clear()
    return curve.along(HORN, "made_up", cents)


def middle(register) -> float:
    return float(register.low.pitch_cents + register.high.pitch_cents) / 2 + float(HORN.sounding.cents)


@pytest.mark.parametrize(
    ("share", "narrow", "wide", "source"),
    [(0.25, 125, 225, "low"), (0.49, 149, 249, "low"), (0.75, 175, 275, "high")],
)
def test_between_two_registers_the_nearer_is_the_evidence(monkeypatch, share, narrow, wide, source):
    low = Limit(sourced(100, source="low"), sourced(200, PUBLISHED, "low, wide"), "cents", "what it means")
    high = Limit(sourced(200, source="high"), sourced(300, PUBLISHED, "high, wide"), "cents")
    first, second = (middle(r) for r in HORN.registers[:2])
    found = along(monkeypatch, low, high, first + share * (second - first))
    assert (found.narrow.value, found.narrow.source) == (narrow, source)
    assert (found.wide.value, found.wide.source) == (wide, f"{source}, wide")
    assert (found.unit, found.wide_means) == ("cents", "what it means")


@pytest.mark.parametrize("without", ["low", "high", "both"])
def test_without_a_wide_reading_on_both_sides_there_is_none_between(monkeypatch, without):
    bare = Limit(sourced(100), None, "cents")
    full = Limit(sourced(200), sourced(300, PUBLISHED), "cents")
    first, second = (middle(r) for r in HORN.registers[:2])
    low, high = {"low": (bare, full), "high": (full, bare), "both": (bare, bare)}[without]
    assert along(monkeypatch, low, high, (first + second) / 2).wide is None


def test_without_a_margin_the_widest_reading_is_where_refusing_begins():
    limits = {name: limit for name, limit in HORN.limits.items() if name != "range_far_cents"}
    assert reading.far_range(replace(HORN, limits=limits)) == HORN.widest_range.value


# --- a wider reading --------------------------------------------------------------------------------------------

# A gesture that passes a limit which has no wide reading: beyond one, the rule refuses and names it.
WIDER = [
    ("lip-gliss-too-wide", "lip_gliss_cents", 750, "technique: lip-gliss\ncontour: C4 -- C5"),
    ("hand-out-too-wide", "hand_out_widest_cents", 550, "technique: hand-out\ncontour: C6 -- F#5"),
    ("split-tone-unstable", "split_tone_lowest_partial", 3, "technique: split-tone\ncontour: C3"),
    ("stopped-too-low", "stopped_lowest_cents", 4500, "technique: stopped\ncontour: C3"),
    (
        "mute-change-too-quick",
        "mute_change_cup_s",
        4,
        "mute: cup\ncontour: C5 as muted, r, D5 as ordinary\nlasts: 3 beats",
    ),
    ("half-valve-too-fast", "half_valve_per_s", 5, "technique: half-valve\ncontour: xC5, xD5\nlasts: 1/3 beats"),
    ("quarter-tones-too-fast", "quarter_tones_per_s", 5, "contour: C5, C^5, D5, D^5\nlasts: 1/2 beats"),
    ("slide-travel-too-fast", "slide_positions_per_s", 35, "contour: Bb2, B2@1, Bb2@7/6\nlasts: 3 beats"),
    (
        "too-many-points-to-read",
        "points_per_s",
        9,
        "technique: half-valve\ncontour: xC5 ~~ xG5 ~~ xC5\nlasts: 0.1 s",
    ),
    ("effect-too-long", "growl longest_s", 9, "technique: growl\ncontour: C4\nlasts: 12 beats"),
    ("effect-too-short", "growl shortest_ms", 150, "technique: growl\ncontour: C5\nlasts: 0.1 s"),
    ("trill-without-neighbour", "lip-trill widest_cents", 300, "technique: lip-trill\ncontour: C4"),
    ("roll-too-slow-for-pitch", "flutter-tongue cycle_periods", 2.5, "technique: flutter-tongue\ncontour: G2"),
    ("scoop-too-wide", "bend_down_top", 60, "technique: scoop\ncontour: C6"),
    ("attacks-too-fast", "kiss fastest_per_s", 5, "technique: kiss\ncontour: xC5\nattacks: 20\nlasts: 1 beat"),
]


@pytest.mark.parametrize(("rule", "name", "wide", "body"), WIDER, ids=[row[0] for row in WIDER])
def test_beyond_a_published_wider_reading_it_is_refused(monkeypatch, rule, name, wide, body):
    owner, _, limit = name.rpartition(" ")
    trombone = rule == "slide-travel-too-fast"
    limits = techniques.get(owner).limits if owner else instruments.get("trombone" if trombone else "horn").limits
    reading = Sourced(wide, PUBLISHED, "a treatise")
    monkeypatch.setitem(inside(limits), limit, replace(limits[limit], wide=reading))
    curve._along.cache_clear()
    text = horn(body)
    found = [f for f in findings(text.replace("horn", "trombone") if trombone else text) if f.rule == rule]
    curve._along.cache_clear()
    assert found
    for finding in found:
        assert (finding.severity, finding.evidence) == (Severity.REFUSED, reading)
        assert finding.numbers[0].limit == wide


# --- effort -----------------------------------------------------------------------------------------------------


def owed(text: str, *, name: str = "p") -> list[float]:
    return [owes for _, owes, _ in account.account(checked(HEAD + text).passage_cases[name])]


def test_rests_pay_back_at_the_ratio_of_the_instrument(monkeypatch):
    monkeypatch.setitem(inside(HORN.limits), "rest_ratio", Limit(sourced(2.0)))
    text = f"{SHORT}passage p\n  play: a, a, a, a, rest 2, a\n"
    assert owed(text) == pytest.approx([SECOND * n for n in (1, 2, 3, 4)] + [4 * SECOND - 4, 5 * SECOND - 4])
    assert account.rest_ratio(checked(HEAD + text).passage_cases["p"]) == 2.0


def test_little_is_owed_for_little():
    assert owed(f"{SHORT.replace('1 beat', '1/4 beats')}passage p\n  play: a\n") == pytest.approx([SECOND / 4])


def test_what_stands_behind_a_repeat_is_played_once():
    text = f"{SHORT}passage q\n  play: a, rest 1\n  repeat: 3\npassage p\n  play: q, a, rest 1, a\n"
    played = [item.played for item, _ in account.played_out(checked(HEAD + text).passage_cases["p"])]
    assert played == ["a", "", "a", "", "a", "", "a", "", "a"]


def test_hundreds_of_repeats_are_counted():
    assert owed(f"{SHORT}passage p\n  play: a\n  repeat: 500\n") == pytest.approx(
        [SECOND * n for n in range(1, 501)]
    )


# --- words ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (0, "0"), (0.5, "0.5"), (0.994, "0.99"), (0.996, "1"), (1, "1"), (1.04, "1"), (1.96, "2"), (9.96, "10"),
        (12.34, "12.3"), (99.94, "99.9"), (100, "100"), (100.4, "100"), (150.6, "151"), (1200, "1200"),
        (-0.25, "-0.25"), (-150.4, "-150"),
    ],
)  # fmt: skip
def test_numbers_for_people(value, words):
    assert reading.plain(value) == words


# Sixteenths at 110 are 7.33 a second (check_values.csv), and 7.3 is what single tonguing is said to do.
@pytest.mark.parametrize(
    ("value", "limit", "words"),
    [(110 * 4 / 60, 7.3, "7.33"), (7.2, 7.3, "7.2"), (9, 7.3, "9"), (7.04, 7, "7.04"), (199.96, 200, "199.96"),
     (100.26, 100, "100.3"), (0.4996, 0.5, "0.4996"), (-100.2, -100, "-100.2"),
     (7.3, 7.3, "7.3"), (7.3 + 1e-9, 7.3, "7.3")],
)  # fmt: skip
def test_a_measured_number_does_not_read_as_its_limit(value, limit, words):
    assert reading.apart(value, limit) == words


@pytest.mark.parametrize(("value", "words"), [(1, "1 step"), (0.999, "1 step"), (2, "2 steps"), (0.5, "0.5 steps")])
def test_one_is_not_many(value, words):
    assert reading.counted(value, "step") == words


DOC = """One line.

Checks  what
        and where
Why     because Fires of joy burn
Fires
    instrument: horn
      Fix  this is no heading

Passes
    instrument: trumpet

Fix     this
"""


def test_sections_of_a_docstring():
    assert sections(DOC) == {
        "Checks": "what\n    and where",
        "Why": "because Fires of joy burn",
        "Fires": "instrument: horn\n  Fix  this is no heading",
        "Passes": "instrument: trumpet",
        "Fix": "this",
    }
    with pytest.raises(ValueError, match="a rule needs Checks, Fix once each: One line"):
        sections(DOC.replace("Checks", "Check").replace("\nFix ", "\nFixes "))


def test_explain_knows_a_rule_in_any_case():
    assert rules.explain("  Outside-Range ") == rules.explain("GS501") == rules.explain(" gs501 ")


# --- cases ------------------------------------------------------------------------------------------------------


def in_force(body: str) -> list[list[str]]:
    case = checked(horn(body)).cases["a"]
    return [[t.key for t in case.in_force(point)] for point in (*case.gesture.points, None)]


def test_what_is_in_force_where_a_fallback_is_played():
    """It takes the place of what was asked for the whole; what single points turn to stays."""
    body = "technique: harmonic-gliss\ncontour: C3 ~~ G3, C4 as growl, C4 as stopped\nlasts: 8 beats"
    assert in_force(body) == [
        ["harmonic-gliss"],
        ["harmonic-gliss"],
        ["harmonic-gliss", "growl"],
        ["harmonic-gliss", "growl", "stopped"],
        [],
    ]
    assert in_force(f"{body}\nfallback: chromatic") == [
        ["chromatic"],
        ["chromatic"],
        ["chromatic", "growl"],
        ["chromatic", "growl", "stopped"],
        [],
    ]


def test_a_technique_slower_than_all_tonguing_has_its_own_limit(monkeypatch):
    limits = techniques.get("kiss").limits
    monkeypatch.setitem(inside(limits), "fastest_per_s", Limit(sourced(1), None, "1/s"))
    text = horn("technique: kiss\ncontour: xC5\nattacks: 3\nlasts: 3/2 beats")
    assert [(n.value, n.limit) for f in findings(text) for n in f.numbers] == [(2, 1)]


def test_a_note_without_a_tube_has_no_name_for_it():
    assert reading.tube_words(HORN, None) == "this tube"
    assert reading.tube_words(instruments.get("trombone"), None) == "this tube"


def test_seconds_at_a_tempo_that_is_no_whole_number():
    gesture = checked(horn("contour: C5\nlasts: 1 beat", tempo=62.5)).cases["a"].gesture
    assert reading.seconds_between(gesture, Fraction(0), Fraction(3, 2)) == pytest.approx(1.44)
    assert reading.slot_s(gesture, gesture.points[0]) == pytest.approx(0.96)


# --- techniques that are not there today ------------------------------------------------------------------------


def test_a_technique_may_take_few_points_at_most():
    case = checked(horn("technique: growl\ncontour: C5, D5, E5")).cases["a"]
    growl = replace(techniques.get("growl"), points=(1, 2))
    rule = rules.get("wrong-number-of-points")

    def said(sounding):
        gesture = replace(case.gesture, techniques=(growl,), points=case.gesture.points[:sounding])
        return [
            (f.text, f.evidence.value, [(n.value, n.limit) for n in f.numbers], pairs(f.proposed_fixes))
            for f in rule.check(replace(case, gesture=gesture))
        ]

    way = ((("technique", "ordinary"),),)
    assert said(3) == [("3 points; growl takes at most 2", 2, [(3, 2)], way)]
    assert said(2) == said(1) == []


@pytest.mark.parametrize(
    ("registers", "pitch", "words", "move"),
    [
        (("high",), "C4", "high", "12"),
        (("low", "high"), "C4", "low and high", "12"),
        (("low",), "B5", "low", "-12"),
    ],
)
def test_a_technique_may_speak_in_few_registers(monkeypatch, registers, pitch, words, move):
    limits = inside(techniques.get("growl").limits)
    monkeypatch.setitem(limits, "registers", Limit(sourced(registers), None, "register"))
    (finding,) = (
        f for f in findings(horn(f"technique: growl\ncontour: {pitch}")) if f.rule == "technique-out-of-register"
    )
    assert finding.text.endswith(f"register; growl speaks well in the {words}")
    assert pairs(finding.proposed_fixes)[0] == (("move", move),)


def test_a_code_that_is_no_longer_used_says_what_replaced_it(monkeypatch):
    monkeypatch.setitem(rules.RETIRED, "GS299", "outside-range")
    assert rules.explain(" gs299 ") == "GS299 is no longer used: outside-range\n"
    assert rules.explain("GS298") is None
