"""The explanation of a rule."""

import pytest

from gesturesmith.evidence import Kind
from gesturesmith.explain.rules import explain_rule, rule_evidence
from gesturesmith.rules import all_rules

RULES = {rule.name: rule for rule in all_rules()}


@pytest.mark.parametrize("name", RULES)
def test_every_rule_tells_what_it_rests_on(name):
    evidence = rule_evidence(RULES[name])
    assert evidence
    assert {text.partition(": ")[0] for text in evidence} <= {kind.value for kind in Kind}
    said = " ".join(explain_rule(name).split())
    assert all(text in said for text in evidence)
    assert explain_rule(RULES[name].code.lower()) == explain_rule(name)


def test_there_is_nothing_to_say_of_what_is_not_there():
    assert explain_rule("no-such-rule") is None
