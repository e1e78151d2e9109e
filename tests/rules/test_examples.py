"""The docstring of every rule is its documentation, and its examples are tests."""

import pytest
from rules.checking import checked, findings

from gesturesmith.diagnostics import Severity, Verdict
from gesturesmith.rules import all_rules
from gesturesmith.rules.shared.doc import HEADINGS, sections

RULES = {rule.name: rule for rule in all_rules()}


@pytest.mark.parametrize("name", RULES)
def test_the_first_example_fires(name):
    text = sections(RULES[name].doc)["Fires"]
    found = [f for f in findings(text) if f.rule == name]
    assert found, f"{name} is silent on:\n{text}"
    for finding in found:
        assert finding.text
        assert finding.evidence.source
        line = text.split("\n")[finding.span.line - 1]
        assert finding.span.column <= len(line)


@pytest.mark.parametrize("name", RULES)
def test_the_second_example_passes(name):
    text = sections(RULES[name].doc)["Passes"]
    assert [f.text for f in findings(text) if f.rule == name] == []


@pytest.mark.parametrize("name", RULES)
def test_the_second_example_can_be_played(name):
    """The passing example has no other fault that would keep it off the page."""
    report = checked(sections(RULES[name].doc)["Passes"]).report
    assert [g.verdict for g in report.gestures if g.verdict is Verdict.NOT_AS_WRITTEN] == []


@pytest.mark.parametrize("name", RULES)
def test_severity_stays_within_the_evidence(name):
    """No rule claims to refuse on a value from memory or of our own."""
    rule = RULES[name]
    for heading in ("Fires", "Passes"):
        made = checked(sections(rule.doc)[heading])
        raw = [f for case in made.cases.values() for f in (rule.check(case) if rule.check else ())]
        raw += [
            f
            for case in made.passage_cases.values()
            for f in (rule.check_passage(case) if rule.check_passage else ())
        ]
        for finding in raw:
            severity = finding.severity or rule.severity
            assert severity is not Severity.REFUSED or finding.evidence.kind.may_refuse


def test_every_heading_is_there():
    for rule in RULES.values():
        assert tuple(sections(rule.doc)) == HEADINGS
