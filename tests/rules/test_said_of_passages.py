"""What is said between the items of a passage: changes, effort, gestures that cannot be played."""

from __future__ import annotations

from dataclasses import replace

import pytest
from rules.checking import checked, findings

from gesturesmith import instruments
from gesturesmith.diagnostics import Severity
from gesturesmith.rules.effort_overdrawn import _minutes

MUTES = "gesture m\n  technique: muted\n  contour: C5\n  lasts: 1 beat\ngesture o\n  contour: C5\n  lasts: 1 beat\n"
RESTS = (
    "gesture m\n  technique: muted\n  contour: r, C5@1, r@2\n  lasts: 3 beats\n"
    "gesture o\n  contour: r, C5@1, r@2\n  lasts: 3 beats\n"
)
HAND = "gesture m\n  technique: stopped\n  contour: C5\n  lasts: 1 beat\ngesture n\n  contour: r\n  lasts: 1 beat\n"
TONGUES = (
    "gesture d\n  technique: double-tongue\n  contour: C5, C5, C5, C5\n  lasts: 1/2 beats\n"
    "gesture t\n  technique: triple-tongue\n  contour: C5, C5, C5, C5\n  lasts: 1/2 beats\n"
)
CHANGES = {
    MUTES: ("the mute", 5),
    RESTS: ("the mute", 5),
    HAND: ("the hand in the bell", 0.5),
    TONGUES: ("the tonguing", 0.3),
}
LONG = "gesture a\n  contour: C5\n  lasts: 40 beats\n  dynamics: mf\n"
NINE = ", ".join("a" * 9)


def of_passage(gestures: str, play: str, *, tempo: int = 60):
    """The findings of a passage, each with its place in the line between « and », if any."""
    text = f"instrument: horn\npitches: written\ntempo: {tempo}\n\n{gestures}passage p\n{play}\n"
    plain = text.replace("«", "").replace("»", "")
    places = []
    for number, line in enumerate(text.split("\n"), start=1):
        passed = 0
        for part in line.split("«")[1:]:
            before = line.index("«" + part, passed)
            marks = line[:before].count("«") + line[:before].count("»")
            places.append((number, before - marks + 1, before - marks + 1 + part.index("»")))
            passed = before + 1
    return checked(plain).report.passages[0].findings, places


def columns(found):
    return [(f.span.line, f.span.column, f.span.end_column) for f in found]


@pytest.mark.parametrize(
    ("gestures", "play", "tempo", "rest", "beats"),
    [
        (MUTES, "m, «o»", 60, [0], "5 beats"),
        (MUTES, "m, rest 4, «o», rest 5, m, «o»", 60, [4, 0], "5 beats"),
        (MUTES, "m, rest 9, «o», rest 10, m", 120, [4.5], "10 beats"),
        (MUTES, "m, rest 5, m, m, rest 1, «C5 for 2»", 60, [1], "5 beats"),
        (MUTES, "m, rest 9/2, «o»", 55, [54 / 11], "5 beats"),
        (RESTS, "m, rest 1, «o», rest 2, «m»", 60, [3, 4], "5 beats"),
        (RESTS, "m, rest 3, o, rest 3, m", 60, [], ""),
        (HAND, "C5 for 1, «m», rest 1/2, C5 for 1, rest 2/5, «m»", 60, [0, 0.4], "1 beat"),
        (HAND, "C5 for 1, «m»", 150, [0], "2 beats"),
        (HAND, "C5 for 1, n, m", 60, [], ""),
        (HAND, "C5 for 1, n, «m»", 240, [0.25], "2 beats"),
        (TONGUES, "d, «t», rest 3/10, d, rest 1/4, «t»", 60, [0, 0.25], "1 beat"),
    ],
)
def test_changes_from_one_item_to_the_next_take_their_time(gestures, play, tempo, rest, beats):
    found, places = of_passage(gestures, f"  play: {play}", tempo=tempo)
    found = [f for f in found if f.rule.endswith("change-too-quick")]
    assert columns(found) == places
    what, needed = CHANGES[gestures]
    for finding, free in zip(found, rest, strict=True):
        words = f"{free:.2g} s" if free else "no time"
        assert finding.text == f"{words} of rest before it to change {what}; {needed:g} s are needed"
        assert finding.hint == f"rest {beats} before it"
        assert finding.severity is Severity.CAUTION
        (number,) = finding.numbers
        assert (number.name, number.value, number.limit, number.unit) == ("rest", pytest.approx(free), needed, "s")
        start = finding.span.column
        assert finding.where == (
            "" if play.startswith("m, rest 5") else play.replace("«", "").replace("»", "")[start - 9]
        )


# 1.6 s of plain playing in the middle register for each second in the high one at mf; ten minutes are there.
@pytest.mark.parametrize(
    ("play", "bar", "takes", "over", "value"),
    [
        (f"  meter: 4/4\n  play: {NINE}, «a»", " (bar 91)", "10.7 minutes", "40 s", 640),
        (f"  meter: 3/4\n  play: {NINE}, «a»", " (bar 121)", "10.7 minutes", "40 s", 640),
        (f"  meter: 6/8\n  play: {NINE}, «a»", " (bar 121)", "10.7 minutes", "40 s", 640),
        (f"  play: {NINE}, a, rest 60, «a»", "", "10.7 minutes", "44 s", 644),
        (f"  play: {NINE}, «a», rest 70, a", "", "10.7 minutes", "40 s", 640),
        ("  play: a, «a»\n  repeat: 6", "", "12.8 minutes", "2.8 minutes", 768),
    ],
)
def test_the_effort_of_a_passage(play, bar, takes, over, value):
    found, places = of_passage(LONG, play)
    (finding,) = (f for f in found if f.rule == "effort-overdrawn")
    assert finding.text == (
        f"up to here{bar} the passage takes as much as {takes} of plain playing, {over} more than a player has"
    )
    assert finding.hint == f"rests of {over} in all before it settle that"
    assert finding.where == "a"
    assert columns([finding]) == places
    (number,) = finding.numbers
    assert (number.name, number.value, number.limit, number.unit) == (
        "effort", pytest.approx(value), 600, "s of plain playing",
    )  # fmt: skip
    assert finding.evidence == instruments.get("horn").limits["effort_reserve_s"].narrow
    assert finding.severity is Severity.CAUTION


@pytest.mark.parametrize("play", [f"  play: {NINE}, rest 40, a", f"  play: {NINE}", "  play: a\n  repeat: 9"])
def test_effort_that_a_player_has(play):
    found, _ = of_passage(LONG, play)
    assert "effort-overdrawn" not in [f.rule for f in found]


def test_a_refused_gesture_is_told_wherever_it_is_played():
    gestures = "gesture a\n  contour: C7\n"
    found, places = of_passage(gestures, "  play: «a», rest 2, «a», C5 for 1")
    assert columns(found) == places
    for finding in found:
        assert (finding.where, finding.severity) == ("a", Severity.REFUSED)
        assert finding.text == (
            "plays a, which is not as written, first note (written C7): C7 (sounding F6); the highest pitch any "
            "source gives is D6 (sounding G5) (outside-range)"
        )


def test_what_is_refused_as_a_whole_has_no_place_in_the_gesture():
    found, _ = of_passage("gesture a\n  contour: C5\n  fingering: F 1-4\n", "  play: a\n  repeat: 3")
    assert [f.text for f in found] == [
        "plays a, which is not as written: the double horn in F/B-flat has no fingering F 1-4 (no-such-fingering)"
    ]


def test_a_refused_note_of_a_passage_is_told_as_what_it_is():
    text = "instrument: horn\npitches: written\n\npassage p\n  play: C7 for 2, C5 for 1\n"
    assert [f.rule for f in findings(text)] == ["outside-range"]


def attacks(gestures: str, play: str):
    found, places = of_passage(gestures, f"  play: {play}")
    found = [f for f in found if f.rule == "attacks-too-fast"]
    assert columns(found) == places
    return found


def test_attacks_within_one_gesture_are_told_of_the_gesture_alone():
    assert attacks("gesture a\n  contour: C5\n  attacks: 9\n  lasts: 1 beat\n", "a, rest 4, a") == []


def test_the_first_of_several_that_are_as_fast_is_told():
    quick = "gesture a\n  contour: C5\n  lasts: 1/8 beats\n"
    (finding,) = attacks(quick, "«a», a, a, rest 4, a, a, a")
    assert finding.text == (
        "8 attacks a second from here; single tonguing in the high register: up to 7.3 (readings differ, up to 10)"
    )


def test_attacks_beyond_every_reading_are_refused_across_gestures_too():
    quick = "gesture a\n  contour: C5\n  lasts: 1/14 beats\n"
    (finding,) = attacks(quick, "«a», a, a")
    assert finding.severity is Severity.REFUSED
    assert finding.text == "14 attacks a second from here; single tonguing in the high register: up to 10"


def test_the_register_is_that_of_the_note_that_is_struck():
    """The second note of the gesture lies low, and is struck just when it comes."""
    gestures = "gesture a\n  contour: C5, C3@1\n  lasts: 7/6 beats\ngesture b\n  contour: C3\n  lasts: 1/6 beats\n"
    (finding,) = attacks(gestures, "«a», b, b")
    assert finding.text == (
        "6 attacks a second from here; single tonguing in the low register: up to 5.5 (readings differ, up to 10)"
    )


@pytest.mark.parametrize(
    ("one", "other", "changes"), [("cup", "straight", 1), ("cup", "cup", 0), ("straight", "", 0), ("cup", "", 1)]
)
def test_another_mute_is_a_change_of_mutes(one, other, changes):
    """A gesture that names none is played with the straight one."""
    gestures = ""
    for name, mute in (("m", one), ("n", other)):
        gestures += f"gesture {name}\n  technique: muted\n  contour: C5\n  lasts: 1 beat\n"
        gestures += f"  mute: {mute}\n" if mute else ""
    found, _ = of_passage(gestures, "  play: m, n")
    assert [f.rule for f in found] == ["mute-change-too-quick"] * changes


def test_a_refused_gesture_of_a_passage_within_is_told_once_for_it():
    inner = "gesture a\n  contour: C7\npassage q\n  play: a, rest 1, a\n"
    text = f"instrument: horn\npitches: written\n\n{inner}passage p\n  play: q, q\n"
    report = {p.name: p for p in checked(text).report.passages}
    assert [f.span.column for f in report["p"].findings] == [9, 12]


def test_rests_that_give_back_twice_need_be_half_as_long(monkeypatch):
    limits = instruments.get("horn").limits
    ratio = limits["rest_ratio"]
    monkeypatch.setitem(limits, "rest_ratio", replace(ratio, narrow=replace(ratio.narrow, value=2.0)))
    found, _ = of_passage(LONG, f"  play: {NINE}, a")
    assert [f.hint for f in found if f.rule == "effort-overdrawn"] == ["rests of 20 s in all before it settle that"]


@pytest.mark.parametrize(
    ("seconds", "words"), [(95, "95 s"), (119, "119 s"), (120, "2 minutes"), (150, "2.5 minutes")]
)
def test_two_minutes_are_minutes(seconds, words):
    assert _minutes(seconds) == words


@pytest.mark.parametrize(
    ("play", "rests"),
    [
        ("«m», rest 5, o\n  repeat: 2", ["no time"]),
        ("«m», rest 5, o, rest 4\n  repeat: 3", ["4 s"]),
        ("m, rest 5, o, rest 5\n  repeat: 2", []),
        ("m, rest 5, o\n  repeat: 1", []),
        ("m, m\n  repeat: 2", []),
    ],
)
def test_a_repeat_leads_back_with_the_mute_as_it_was(play, rests):
    found, places = of_passage(MUTES, f"  play: {play}")
    told = "of rest before it, where it is repeated, to change the mute; 5 s are needed"
    assert [f.text for f in found] == [f"{rest} {told}" for rest in rests]
    assert columns(found) == places


def test_a_repeat_within_a_longer_passage():
    inner = f"{MUTES}passage q\n  play: m, rest 5, o\n  repeat: 2\n"
    text = f"instrument: horn\npitches: written\ntempo: 60\n\n{inner}passage p\n  play: o, rest 5, q, rest 5, m\n"
    report = {p.name: p for p in checked(text).report.passages}
    assert [(f.span.column, f.where) for f in report["p"].findings] == [(20, "m")]


@pytest.mark.parametrize(
    ("play", "rates"),
    [
        ("«a»\n  repeat: 3", [8]),
        ("a\n  repeat: 2", []),
        ("«a», a\n  repeat: 2", [8]),
        ("a, rest 1\n  repeat: 9", []),
        ("a, a, rest 1\n  repeat: 9", []),
        ("b, «a»\n  repeat: 2", [8]),
    ],
)
def test_attacks_follow_each_other_over_repeats_too(play, rates):
    gestures = "gesture a\n  contour: C5\n  lasts: 1/8 beats\ngesture b\n  contour: C5, C5@1/8\n  lasts: 1 beat\n"
    found = attacks(gestures, play)
    assert [f.numbers[0].value for f in found] == rates


def test_attacks_over_a_repeat_within_a_longer_passage():
    gestures = "gesture a\n  contour: C5\n  lasts: 1/8 beats\n"
    text = f"instrument: horn\npitches: written\ntempo: 60\n\n{gestures}passage q\n  play: a\n  repeat: 3\n"
    report = {p.name: p for p in checked(f"{text}passage p\n  play: rest 4, q, rest 4, q\n").report.passages}
    found = [f for f in report["p"].findings if f.rule == "attacks-too-fast"]
    assert [(f.span.column, f.numbers[0].value) for f in found] == [(17, 8)]


@pytest.mark.parametrize("play", ["n\n  repeat: 3", "rest 2\n  repeat: 3", "m, n\n  repeat: 2"])
def test_a_repeat_of_silence_asks_for_no_change(play):
    found, _ = of_passage(HAND, f"  play: {play}")
    assert [f.text for f in found if f.rule == "hand-change-too-quick"] == []
