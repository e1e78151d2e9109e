"""Suggestions are edits of the composer's own lines, and each has been checked."""

from pathlib import Path

import pytest
from rules.checking import checked, horn

from gesturesmith.check.suggest import apply_edits
from gesturesmith.check.where import point_at
from gesturesmith.diagnostics import Edit, Verdict
from gesturesmith.rules import all_rules
from gesturesmith.rules._doc import sections

MARKED = sorted((Path(__file__).parents[1] / "rules" / "marked").glob("*.gesture"))
TEXTS = [p.read_text(encoding="utf-8") for p in MARKED]
TEXTS += [sections(r.doc)["Fires"] for r in all_rules()]


def count(made, rule, name, point):
    """How often a rule found something at a point of a gesture."""
    case = made.cases[name]
    said = next(g for g in made.report.gestures if g.name == name)
    return sum(f.rule == rule and point_at(case.gesture, f.span) == point for f in said.findings)


@pytest.mark.parametrize("text", TEXTS, ids=[p.stem for p in MARKED] + [r.name for r in all_rules()])
def test_every_suggestion_removes_its_finding_and_is_not_refused(text):
    made = checked(text, suggestions=True)
    lines = text.split("\n")
    for said in made.report.gestures:
        for finding in said.findings:
            assert len(finding.suggestions) <= 3
            for suggestion in finding.suggestions:
                again = checked("\n".join(apply_edits(lines, suggestion.edits)))
                after = next(g for g in again.report.gestures if g.name == said.name)
                assert after.verdict is suggestion.verdict
                assert after.verdict is not Verdict.REFUSED
                point = point_at(made.cases[said.name].gesture, finding.span)
                before = count(made, finding.rule, said.name, point)
                assert count(again, finding.rule, said.name, point) < before


def suggestions(text):
    (said,) = checked(text, suggestions=True).report.gestures
    return [s for f in said.findings for s in f.suggestions]


def test_a_chromatic_run_is_offered_for_a_glissando_without_partials():
    first, *_ = suggestions(horn("technique: harmonic-gliss\ncontour: C3 ~~ G3\nlasts: 2 beats"))
    assert first.edits == (Edit(6, "technique: harmonic-gliss", "technique: chromatic"),)


def test_x_notes_are_offered_for_half_valves_and_marked_as_changing_the_music():
    (only,) = suggestions(horn("technique: half-valve\ncontour: G4 ~~ D5@2 ~~ xB4  # three\nlasts: 4 beats"))
    assert only.edits == (Edit(7, "contour: G4 ~~ D5@2 ~~ xB4", "contour: xG4 ~~ xD5@2 ~~ xB4"),)
    assert only.changes_music
    assert only.verdict is Verdict.APPROVED


def test_a_key_that_is_not_there_goes_under_the_heading():
    offered = suggestions(horn("contour: C5\nlasts: 1 beat\nattacks: 9"))
    assert any(s.edits[0] == Edit(5, "", "  technique: double-tongue") for s in offered)


def test_a_value_of_several_lines_is_rewritten_whole():
    text = horn("technique: harmonic-gliss\ncontour: C3\nlasts: 2 beats").replace(
        "contour: C3\n", "contour: C3\n      ~~ G3\n"
    )
    assert any("chromatic" in s.edits[0].new for s in suggestions(text))


def test_pitches_are_suggested_as_the_file_names_them():
    written = horn("contour: C5, D6")
    sounding = "instrument: horn\npitches: sounding\ntempo: 60\n\ngesture a\n  contour: F4, G5\n"
    assert suggestions(written)[0].edits == (Edit(6, "contour: C5, D6", "contour: C5, C6"),)
    assert suggestions(sounding)[0].edits == (Edit(6, "contour: F4, G5", "contour: F4, F5"),)


def test_edits_are_made_on_their_lines():
    lines = ("a", "  b: 1", "c")
    edits = (Edit(11, "b: 1", "b: 2"), Edit(11, "", "  d: 3"))
    assert apply_edits(lines, edits, 10) == ("a", "  b: 2", "  d: 3", "c")


def test_a_gesture_of_many_faults_does_not_hold_up_the_rest():
    text = horn("contour: " + ", ".join(["C7"] * 200) + "\nlasts: 200 beats")
    (said,) = checked(text, suggestions=True).report.gestures
    assert len(said.findings) >= 200
