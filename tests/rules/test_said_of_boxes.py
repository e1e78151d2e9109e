"""What is said of boxes: breath and techniques over all their time (GS609), and what they take of a player."""

from __future__ import annotations

import pytest
from rules.checking import checked

GESTURES = "gesture flz\n  technique: flutter-tongue\n  contour: C5\n  lasts: 2 beats\n"


def found(box: str, *, play: str = "b", more: str = "") -> list:
    lines = "".join(f"  {line}\n" for line in box.split("; "))
    text = (
        f"instrument: horn\npitches: written\ntempo: 60\n{GESTURES}{more}box b\n{lines}passage p\n  play: {play}\n"
    )
    return list(checked(text).report.passages[0].findings)


@pytest.mark.parametrize(
    ("box", "seconds"),
    [
        ("play: C4 for 1/4, D4 for 1/4; lasts: 40 s", 40),
        ('play: C4 for 1/4, D4 for 1/4; lasts: until "the end"', 30),
        ('play: C4 for 1/4, D4 for 1/4; lasts: until "the end" within 25 s', 25),
    ],
)
def test_without_a_place_to_breathe_it_lasts_as_long_as_a_breath(box: str, seconds: float) -> None:
    (finding,) = (f for f in found(box) if f.rule == "box-too-long")
    (number,) = finding.numbers
    assert number.value == pytest.approx(seconds)
    # Three litres, at 0.2 litres a second in this register at mf.
    assert number.limit == pytest.approx(3 / 0.2)
    assert finding.severity.value == "caution"


@pytest.mark.parametrize(
    "box",
    [
        "play: C4 for 1/4, D4 for 1/4 breath; lasts: 40 s",
        "play: C4 for 1/4, rest 1; lasts: 40 s",
        "play: C4 for 1, D4 for 1; lasts: 40 s",
        "play: C4 for 1/4, D4 for 1/4; lasts: 15 s",
    ],
)
def test_with_a_breath_a_rest_or_little_time_nothing_is_said(box: str) -> None:
    assert [f for f in found(box) if f.rule == "box-too-long"] == []


def test_a_technique_goes_on_through_all_of_it() -> None:
    said = [f for f in found("play: flz; lasts: 60 s") if "flutter" in f.text]
    assert [f.rule for f in said] == ["box-too-long"]
    assert said[0].numbers[0].value == pytest.approx(60)
    assert not [f for f in found("play: flz, rest 1; lasts: 60 s") if "flutter" in f.text]


def test_what_is_repeated_tires_for_all_its_time() -> None:
    high = "play: G5 for 4, G5 for 4, rest 1; lasts: 800 s"
    assert "effort-overdrawn" in {f.rule for f in found(high)}
    assert "effort-overdrawn" not in {f.rule for f in found(high.replace("800 s", "100 s"))}


def test_a_box_is_no_time_to_change_the_mute() -> None:
    more = "gesture m\n  technique: muted\n  contour: C5\n  lasts: 1 beat\n"
    box = "play: C4 for 1, D4 for 1 breath; lasts: 20 s"
    assert "mute-change-too-quick" in {f.rule for f in found(box, play="b, m", more=more)}
    assert "mute-change-too-quick" not in {f.rule for f in found(box, play="b, rest 6, m", more=more)}
