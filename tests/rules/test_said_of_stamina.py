"""Breath, techniques and force from one item of a passage to the next (GS601, GS603, GS610)."""

from __future__ import annotations

import pytest
from rules.checking import checked, findings, horn

CASES = {"breath-too-short", "effect-too-long", "strain-without-rest"}
HEAD = "instrument: horn\npitches: written\ntempo: 60\n\n"


def found(body: str, play: str, *, repeat: int = 1, meter: str = "free") -> list:
    lines = "".join(f"  {line}\n" for line in body.split("; "))
    text = f"{HEAD}gesture a\n{lines}passage p\n  play: {play}\n  repeat: {repeat}\n  meter: {meter}\n"
    return [f for f in checked(text).report.passages[0].findings if f.rule in CASES]


GROWL = "technique: growl; contour: {}; lasts: 4 beats; dynamics: {}"
LOUD = "contour: {}; lasts: 4 beats; dynamics: {}"
SHORT = ["C5 for 1/4, D5 for 1/4"]
SIXTEENTHS = ", ".join(SHORT * 48)


@pytest.mark.parametrize(
    ("body", "play", "repeat", "rules"),
    [
        # Four growls of four seconds are one of sixteen; with as much rest they are four of four.
        (GROWL.format("C4", "mf"), "a, a, a, a", 1, ["effect-too-long"]),
        (GROWL.format("C4", "mf"), "a, a", 1, []),
        (GROWL.format("C4", "mf"), "a, rest 4", 8, []),
        (GROWL.format("C4", "mf"), "a, rest 2", 2, []),
        (GROWL.format("C4", "mf"), "a, rest 2", 4, ["effect-too-long"]),
        # Something else in between is a break as well.
        (GROWL.format("C4", "mf"), "a, C4 for 4", 8, []),
        (GROWL.format("C4", "mf"), "a, C4 for 1", 8, ["effect-too-long"]),
        # A minute of ff without a rest, in the middle register and higher.
        (LOUD.format("E4", "ff"), "a", 15, []),
        (LOUD.format("E4", "ff"), "a", 16, ["strain-without-rest"]),
        (LOUD.format("C5", "ff"), "a", 7, []),
        (LOUD.format("C5", "ff"), "a", 16, ["strain-without-rest"]),
        (LOUD.format("C5", "ff"), "a, a, a, rest 12", 8, []),
        (LOUD.format("E4", "mf"), "a", 64, []),
        (LOUD.format("C5", "p"), "a", 40, []),
        (GROWL.format("C5", "ff"), "a", 32, ["effect-too-long", "strain-without-rest"]),
        # Phrases go on from item to item, until a rest, a breath mark or a note of at least 0.4 s.
        (LOUD.format("C4", "mf"), SIXTEENTHS, 1, ["breath-too-short"]),
        (LOUD.format("C4", "mf"), ", ".join([*SHORT * 24, "rest 1", *SHORT * 24]), 1, []),
        (LOUD.format("C4", "mf"), "C5 for 2/5", 100, []),
        (LOUD.format("C4", "mf"), "C5 for 39/100", 60, ["breath-too-short"]),
        (LOUD.format("C4", "mf"), "C5 for 39/100, C5 for 39/100 breath", 30, []),
        ("contour: C4 -- D4; technique: half-valve; lasts: 4 beats", "a", 6, []),
    ],
)
def test_what_carries_over(body: str, play: str, repeat: int, rules: list[str]) -> None:
    assert [f.rule for f in found(body, play, repeat=repeat)] == rules


def test_findings_name_the_first_place() -> None:
    (said,) = found(GROWL.format("C4", "mf"), "C4 for 4, a, a, rest 8, a, a, a, a", meter="4/4")
    assert (said.where, said.span.column) == ("a", 9 + len("C4 for 4, a, a, rest 8, a, a, "))
    assert "(bar 8)" in said.text
    (said,) = found(LOUD.format("C4", "mf"), f"C5 for 4, {SIXTEENTHS}", meter="4/4")
    assert said.span.column == 9 + len("C5 for 4, ")
    assert "(bar 2)" in said.text


def test_what_one_gesture_has_is_not_told_of_the_passage_again() -> None:
    long = GROWL.format("C4", "mf").replace("4 beats", "12 beats")
    assert found(long, "rest 4, a, rest 20, a") == []


def test_force_is_counted_within_one_gesture() -> None:
    notes = ", ".join(["E4"] * 70)
    said = [f for f in findings(horn(f"contour: {notes}\ndynamics: ff")) if f.rule == "strain-without-rest"]
    assert [(f.where, f.severity.value) for f in said] == [("61st note (written E4)", "caution")]
    (number,) = said[0].numbers
    assert (number.value, number.limit) == (pytest.approx(70), pytest.approx(60))
    rested = ", ".join(["E4"] * 30 + ["r"] * 15) + ", " + ", ".join(["E4"] * 30)
    assert "strain-without-rest" not in {f.rule for f in findings(horn(f"contour: {rested}\ndynamics: ff"))}
