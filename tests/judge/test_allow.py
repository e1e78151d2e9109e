"""What `allow` lifts, and what it cannot."""

import pytest

from gesturesmith.diagnostics import Finding, Severity
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.judge.allow import lift
from gesturesmith.model.gesture import Allow
from gesturesmith.source import Span

HERE = Span(3, 1, 5)


def finding(severity, *, physical=False, rule="outside-range", code="GS501"):
    return Finding(
        span=HERE,
        text="too high",
        evidence=Sourced(1, DERIVED, "arithmetic"),
        code=code,
        rule=rule,
        severity=severity,
        physical=physical,
    )


def allow(rule="outside-range"):
    return Allow(rule=rule, reason="our player has it", span=HERE)


@pytest.mark.parametrize("severity", [Severity.CAUTION, Severity.ADVICE])
@pytest.mark.parametrize("name", ["outside-range", "Outside-Range"])
def test_a_caution_is_silenced(severity, name):
    assert lift((finding(severity),), (allow(name),)).findings == ()


def test_a_refusal_becomes_a_caution_with_the_reason():
    (left,) = lift((finding(Severity.REFUSED),), (allow(),)).findings
    assert left.severity is Severity.CAUTION
    assert left.text == "too high (allowed: our player has it)"


def test_what_is_physical_stays_refused():
    lifted = lift((finding(Severity.REFUSED, physical=True),), (allow(),))
    assert lifted.findings == (finding(Severity.REFUSED, physical=True),)
    assert lifted.barred == (0,)
    assert lifted.silent == ()


def test_an_allow_that_meets_nothing_is_told():
    lifted = lift((finding(Severity.CAUTION),), (allow("bend-too-wide"), allow()))
    assert lifted.findings == ()
    assert lifted.silent == (0,)


def test_without_allows_all_stays():
    found = (finding(Severity.REFUSED), finding(Severity.CAUTION))
    assert lift(found, ()).findings == found
