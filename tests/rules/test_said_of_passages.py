"""Findings between the items of a passage: changes, effort, gestures that cannot be played."""

from __future__ import annotations

from dataclasses import replace

import pytest
from rules.checking import checked, findings
from rules.inside import inside

from gesturesmith import instruments
from gesturesmith.diagnostics import Severity
from gesturesmith.rules.effort_overdrawn import _minutes

MUTES = (
    "gesture m\n  technique: muted\n  mute: cup\n  contour: C5\n  lasts: 1 beat\n"
    "gesture o\n  contour: C5\n  lasts: 1 beat\n"
)
RESTS = (
    "gesture m\n  technique: muted\n  mute: cup\n  contour: r, C5@1, r@2\n  lasts: 3 beats\n"
    "gesture o\n  contour: r, C5@1, r@2\n  lasts: 3 beats\n"
)
HAND = "gesture m\n  technique: stopped\n  contour: C5\n  lasts: 1 beat\ngesture n\n  contour: r\n  lasts: 1 beat\n"
TONGUES = (
    "gesture d\n  technique: double-tongue\n  contour: C5, C5, C5, C5\n  lasts: 1/2 beats\n"
    "gesture t\n  technique: triple-tongue\n  contour: C5, C5, C5, C5\n  lasts: 1/2 beats\n"
)
CHANGES = {
    MUTES: 5,
    RESTS: 5,
    HAND: 0.15,
    TONGUES: 0.3,
}
LONG = "gesture a\n  contour: C5\n  lasts: 40 beats\n  dynamics: mf\n"
NINE = ", ".join("a" * 9)


def passage(gestures: str, play: str, tempo: int = 60) -> str:
    return f"instrument: horn\npitches: written\ntempo: {tempo}\n\n{gestures}passage p\n{play}\n"


def of_passage(gestures: str, play: str, *, tempo: int = 60):
    """The findings of a passage, each with its place in the line between « and », if any."""
    text = passage(gestures, play, tempo)
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


BETWEEN = [
    (MUTES, "m, «o»", 60, [0]),
    (MUTES, "m, rest 4, «o», rest 5, m, «o»", 60, [4, 0]),
    (MUTES, "m, rest 9, «o», rest 10, m", 120, [4.5]),
    (MUTES, "m, rest 5, m, m, rest 1, «C5 for 2»", 60, [1]),
    (MUTES, "m, rest 9/2, «o»", 55, [54 / 11]),
    (RESTS, "m, rest 1, «o», rest 2, «m»", 60, [3, 4]),
    (RESTS, "m, rest 3, o, rest 3, m", 60, []),
    (HAND, "C5 for 1/10, «m», C5 for 1", 60, [0.1]),
    (HAND, "C5 for 1/20, rest 1/20, «m»", 60, [0.1]),
    (HAND, "C5 for 1, m", 150, []),
    (HAND, "C5 for 1, n, m", 60, []),
    (HAND, "C5 for 1/5, m", 60, []),
    (TONGUES, "d, «t», rest 3/10, d, rest 1/4, «t»", 60, [0, 0.25]),
]


@pytest.mark.parametrize(("gestures", "play", "tempo", "rest"), BETWEEN)
def test_changes_from_one_item_to_the_next_take_their_time(gestures, play, tempo, rest):
    found, places = of_passage(gestures, f"  play: {play}", tempo=tempo)
    found = [f for f in found if f.rule.endswith("change-too-quick")]
    assert columns(found) == places
    needed = CHANGES[gestures]
    for finding, free in zip(found, rest, strict=True):
        assert finding.severity is Severity.CAUTION
        (number,) = finding.numbers
        what = "time" if gestures == HAND else "rest"  # the hand moves while it plays
        assert (number.name, number.value, number.limit, number.unit) == (what, pytest.approx(free), needed, "s")
        start = finding.span.column
        assert finding.where == (
            "" if play.startswith("m, rest 5") else play.replace("«", "").replace("»", "")[start - 9]
        )


# 1.6 s of plain playing in the middle register for each second in the high one at mf; ten minutes are there.
EFFORT = [
    (f"  meter: 4/4\n  play: {NINE}, «a»", 640),
    (f"  meter: 3/4\n  play: {NINE}, «a»", 640),
    (f"  meter: 6/8\n  play: {NINE}, «a»", 640),
    (f"  play: {NINE}, «a», rest 60, a", 640),
    (f"  play: {NINE}, «a», rest 70, a", 640),
    ("  play: a, «a»\n  repeat: 6", 640),
]


@pytest.mark.parametrize(("play", "value"), EFFORT)
def test_the_effort_of_a_passage(play, value):
    found, places = of_passage(LONG, play)
    (finding,) = (f for f in found if f.rule == "effort-overdrawn")
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


REFUSED = "gesture a\n  contour: C7\n", "  play: «a», rest 2, «a», C5 for 1"
REFUSED_AS_A_WHOLE = "gesture a\n  contour: C5\n  fingering: F 1-4\n", "  play: a\n  repeat: 3"


def test_a_refused_gesture_is_told_wherever_it_is_played():
    found, places = of_passage(*REFUSED)
    assert columns(found) == places
    assert [(f.where, f.severity) for f in found] == [("a", Severity.REFUSED)] * 2


def test_what_is_refused_as_a_whole_is_told_once_however_often_it_is_repeated():
    found, _ = of_passage(*REFUSED_AS_A_WHOLE)
    assert [(f.where, f.severity) for f in found] == [("a", Severity.REFUSED)]


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


QUICK = [
    # The first of several that are as fast is told.
    (
        "gesture a\n  technique: single-tongue\n  contour: C5\n  lasts: 1/12 beats\n",
        "«a», a, a, rest 4, a, a, a",
        (12, 11),
        Severity.CAUTION,
    ),
    # Beyond every reading they are refused, across gestures too.
    (
        "gesture a\n  technique: single-tongue\n  contour: C5\n  lasts: 1/20 beats\n",
        "«a», a, a",
        (20, 15),
        Severity.REFUSED,
    ),
    # The register is that of the note that is struck: the second of the gesture lies low and is struck late.
    (
        "gesture a\n  technique: single-tongue\n  contour: C5, C3@1\n  lasts: 10/9 beats\n"
        "gesture b\n  technique: single-tongue\n  contour: C3\n  lasts: 1/9 beats\n",
        "«a», b, b",
        (9, 8.2),
        Severity.CAUTION,
    ),
]


@pytest.mark.parametrize(("gestures", "play", "rate", "severity"), QUICK)
def test_attacks_that_are_too_fast_from_one_gesture_to_the_next(gestures, play, rate, severity):
    (finding,) = attacks(gestures, play)
    (number,) = finding.numbers
    assert (number.value, number.limit) == pytest.approx(rate, abs=0.05)
    assert finding.severity is severity


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
    monkeypatch.setitem(inside(limits), "rest_ratio", replace(ratio, narrow=replace(ratio.narrow, value=2.0)))
    found, _ = of_passage(LONG, f"  play: {NINE}, a")
    (finding,) = (f for f in found if f.rule == "effort-overdrawn")
    assert "20 s" in finding.hint


@pytest.mark.parametrize(
    ("seconds", "words"), [(95, "95 s"), (119, "119 s"), (120, "2 minutes"), (150, "2.5 minutes")]
)
def test_two_minutes_are_minutes(seconds, words):
    assert _minutes(seconds) == words


REPEATED = [
    ("«m», rest 5, o\n  repeat: 2", [0]),
    ("«m», rest 5, o, rest 4\n  repeat: 3", [4]),
    ("m, rest 5, o, rest 5\n  repeat: 2", []),
    ("m, rest 5, o\n  repeat: 1", []),
    ("m, m\n  repeat: 2", []),
]


@pytest.mark.parametrize(("play", "rests"), REPEATED)
def test_a_repeat_leads_back_with_the_mute_as_it_was(play, rests):
    found, places = of_passage(MUTES, f"  play: {play}")
    assert [n.value for f in found for n in f.numbers] == rests
    assert columns(found) == places


def test_a_repeat_within_a_longer_passage():
    inner = f"{MUTES}passage q\n  play: m, rest 5, o\n  repeat: 2\n"
    text = f"instrument: horn\npitches: written\ntempo: 60\n\n{inner}passage p\n  play: o, rest 5, q, rest 5, m\n"
    report = {p.name: p for p in checked(text).report.passages}
    assert [(f.span.column, f.where) for f in report["p"].findings] == [(20, "m")]


@pytest.mark.parametrize(
    ("play", "rates"),
    [
        ("«a»\n  repeat: 3", [12]),
        ("a\n  repeat: 2", []),
        ("«a», a\n  repeat: 2", [12]),
        ("a, rest 1\n  repeat: 9", []),
        ("a, a, rest 1\n  repeat: 9", []),
        ("b, «a»\n  repeat: 2", [12]),
    ],
)
def test_attacks_follow_each_other_over_repeats_too(play, rates):
    gestures = (
        "gesture a\n  technique: single-tongue\n  contour: C5\n  lasts: 1/12 beats\n"
        "gesture b\n  technique: single-tongue\n  contour: C5, C5@1/12\n  lasts: 1 beat\n"
    )
    found = attacks(gestures, play)
    assert [f.numbers[0].value for f in found] == rates


def test_attacks_over_a_repeat_within_a_longer_passage():
    gestures = "gesture a\n  technique: single-tongue\n  contour: C5\n  lasts: 1/12 beats\n"
    text = f"instrument: horn\npitches: written\ntempo: 60\n\n{gestures}passage q\n  play: a\n  repeat: 3\n"
    report = {p.name: p for p in checked(f"{text}passage p\n  play: rest 4, q, rest 4, q\n").report.passages}
    found = [f for f in report["p"].findings if f.rule == "attacks-too-fast"]
    assert [(f.span.column, f.numbers[0].value) for f in found] == [(17, 12)]


@pytest.mark.parametrize("play", ["n\n  repeat: 3", "rest 2\n  repeat: 3", "m, n\n  repeat: 2"])
def test_a_repeat_of_silence_asks_for_no_change(play):
    found, _ = of_passage(HAND, f"  play: {play}")
    assert [f.text for f in found if f.rule == "hand-change-too-quick"] == []


PASSAGES = [  # for `test_sentences.py`
    *(passage(gestures, f"  play: {play}", tempo) for gestures, play, tempo, rest in BETWEEN if rest),
    *(passage(LONG, play) for play, _ in EFFORT),
    passage(*REFUSED),
    passage(*REFUSED_AS_A_WHOLE),
    *(passage(gestures, f"  play: {play}") for gestures, play, *_ in QUICK),
    *(passage(MUTES, f"  play: {play}") for play, rests in REPEATED if rests),
]
