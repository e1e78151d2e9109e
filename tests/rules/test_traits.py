"""A rule that is skipped because a trait is missing would not have found anything."""

from pathlib import Path

import pytest
from checker.test_metamorphic import body, gestures
from hypothesis import given, settings
from rules.checking import checked, horn
from sampling import count

from gesturesmith import techniques
from gesturesmith.rules import all_rules
from gesturesmith.rules.shared.doc import sections
from gesturesmith.rules.shared.traits import traits

MARKED = sorted((Path(__file__).parent / "marked").glob("*.gesture"))
TEXTS = [sections(r.doc)[h] for r in all_rules() for h in ("Fires", "Passes")]


def nothing_is_missed(text):
    for case in checked(text).cases.values():
        has = traits(case.gesture)
        for rule in all_rules():
            if rule.check is not None and rule.only and not rule.only & has:
                assert list(rule.check(case)) == [], rule.name


@pytest.mark.parametrize("path", MARKED, ids=lambda p: p.stem)
def test_on_the_marked_files(path):
    nothing_is_missed(path.read_text(encoding="utf-8"))


def test_on_the_examples_of_all_rules():
    for text in TEXTS:
        nothing_is_missed(text)


@pytest.mark.parametrize("key", techniques.names())
def test_with_every_technique(key):
    for contour in ("C5", "G4 ~~ G5", "xG4, xG5, xG4", "low ~~ high", "C5, C5 as ordinary"):
        band = "\nband: middle" if "low" in contour else ""
        nothing_is_missed(horn(f"technique: {key}\ncontour: {contour}{band}\nlasts: 1/4 beats\ndynamics: ppp"))


@given(gestures())
@settings(max_examples=count(15, 60))
def test_on_gestures_of_all_kinds(gesture):
    nothing_is_missed(horn(body(*gesture), tempo=160))


def test_every_trait_a_rule_names_can_be_had():
    named = {trait for rule in all_rules() for trait in rule.only}
    every = [g for t in TEXTS + [p.read_text("utf-8") for p in MARKED] for g in checked(t).cases.values()]
    assert named <= {trait for case in every for trait in traits(case.gesture)}
