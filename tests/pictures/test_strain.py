"""Pictures of passages: breath and effort as the rules have them."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from gesturesmith.checker import Checked, check_text
from gesturesmith.pictures.strain import _air, _effort, strain
from gesturesmith.source import Source

HEAD = "instrument: horn\npitches: written\ntempo: 60\nmeter: 4/4\n"


def checked(play: str) -> Checked:
    found = check_text(Source("a", f"{HEAD}passage p\n  play: {play}\n"), suggestions=False)
    assert not found.reading.errors
    return found


@pytest.mark.parametrize("count", range(1, 12))
def test_the_air_passes_its_limit_just_where_the_rule_says(count):
    """Slurred notes of two seconds: no breath can be taken between them."""
    slurred = "gesture g\n  contour: C5 __ D5@2\n  lasts: 4 beats\n  dynamics: mf\n"
    ties = ", ".join(["C5 for 1/4"] * 12 * count)  # too short to breathe after
    found = check_text(Source("a", f"{HEAD}{slurred}passage p\n  play: {ties}\n"), suggestions=False)
    (said,) = found.report.passages
    case = found.passage_cases["p"]
    one = next(c for c in case.cases if c is not None)
    limit = one.instrument.limits["breath_litres"].narrow.value
    most = max(litres for _, litres in _air(case))
    assert (most > limit) == any(f.rule == "breath-too-short" for f in said.findings)


def test_rests_pay_back_and_breaths_begin_anew():
    case = checked("C6 for 8, rest 4, C5 for 4, rest 40").passage_cases["p"]
    air, effort = dict(_air(case)), _effort(case)
    assert [seconds for seconds, _ in effort] == [0, 8, 12, 16, 56]
    owed = [round(value, 2) for _, value in effort]
    assert owed[1] > owed[2] > 0
    assert owed[3] > owed[2]
    assert owed[4] == 0
    assert air[12.0] == 0
    assert _air(case)[-1] == (56, 0)


def test_a_passage_is_told_in_words_too():
    found = checked("C6 for 8, rest 4, C5 for 4")
    (said,) = found.report.passages
    root = ElementTree.fromstring(strain(found.passage_cases["p"], said.findings, said.verdict.words))
    desc = root.find("{http://www.w3.org/2000/svg}desc")
    assert desc is not None
    assert "litres on one breath" in (desc.text or "")
    said_text = [t.text for t in root.iter("{http://www.w3.org/2000/svg}text")]
    assert said.verdict.words in said_text


def test_a_passage_of_rests_has_no_picture():
    assert strain(checked("rest 8").passage_cases["p"]) == ""


def test_both_curves_last_as_long_under_a_fermata():
    case = checked("C5 for 4, C5 for 4 fermata, rest 4 fermata").passage_cases["p"]
    air, effort = _air(case), _effort(case)
    assert effort[-1][0] == pytest.approx(air[-1][0])
    assert effort[-1][0] > 12
    assert f">{effort[-1][0]:g} s<" in strain(case)
