"""Suggestions are edits of the composer's own lines, and each has been checked."""

from collections import Counter
from itertools import pairwise

import pytest
from fixes.refused import known, made_up
from rules.checking import checked, horn
from sampling import count

from gesturesmith.diagnostics import Edit, Severity, Verdict
from gesturesmith.diagnostics.edits import apply_edits
from gesturesmith.judge.places import point_at
from gesturesmith.model.gesture import LEVELS
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source
from gesturesmith.techniques.base import clash

KNOWN = known()
MADE_UP = count(40, 240)
# Refused gestures that neither a change of pitch nor a related technique can save: one note for a glissando.
NOTHING_ELSE = {"harmonics": 1, "wrong-number-of-points": 1}


def at_least(made, rank):
    """The number of findings of each rule at least this severe, in the whole file including passages."""
    said = (*made.report.gestures, *made.report.passages)
    return Counter(f.rule for s in said for f in s.findings if (f.severity or Severity.CAUTION).rank >= rank)


def at_place(made, name, finding):
    """The number of findings of the same rule, at least as severe, at the same place of a gesture or its halves."""
    rank = (finding.severity or Severity.CAUTION).rank
    point = point_at(made.cases[name].gesture, finding.span)
    return sum(
        f.rule == finding.rule
        and (f.severity or Severity.CAUTION).rank >= rank
        and point_at(made.cases[name].gesture, f.span) == point
        for s in made.report.gestures
        if s.name == name
        for f in s.findings
    )


def looked_through(text):
    """Apply and judge every suggestion of a file; the number of refused gestures, and of those with a
    suggestion."""
    made = checked(text, suggestions=True)
    lines = text.split("\n")
    refused = helped = 0
    for said in made.report.gestures:
        own = [f for f in said.findings if f.severity is Severity.REFUSED]
        refused += bool(own)
        helped += any(f.suggestions for f in own)
        for finding in said.findings:
            assert len(finding.suggestions) <= 3
            assert len({s.edits for s in finding.suggestions}) == len(finding.suggestions)
            for suggestion in finding.suggestions:
                passes(made, said, finding, suggestion, lines)
    return refused, helped


def passes(made, said, finding, suggestion, lines):
    """The finding is gone, the gesture has the promised verdict, and there are no new findings as severe."""
    again = checked("\n".join(apply_edits(lines, suggestion.edits)))
    keeps_its_idea(made.cases[said.name].gesture, again, suggestion)
    after = [g for g in again.report.gestures if g.name not in {o.name for o in made.report.gestures}]
    after += [g for g in again.report.gestures if g.name == said.name]
    assert len(after) == (1 if after[0].name == said.name else 2)
    worst = max((g.verdict for g in after), key=list(Verdict).index)
    assert worst is suggestion.verdict
    assert worst is not Verdict.NOT_AS_WRITTEN
    rank = (finding.severity or Severity.CAUTION).rank
    before, now = at_least(made, rank), at_least(again, rank)
    assert all(n <= before[rule] for rule, n in now.items())
    if after[0].name == said.name:
        assert at_place(again, said.name, finding) < at_place(made, said.name, finding)
    else:
        assert now[finding.rule] < before[finding.rule]


def keeps_its_idea(before, again, suggestion):
    """No dynamic is flattened or reversed, techniques are replaced only by their kin, and changes are declared."""
    if before.name not in again.cases:
        return  # divided: each half continues where the other stops
    after = again.cases[before.name].gesture
    old, new = ([LEVELS.index(m.plain) for m in g.dynamics] for g in (before, after))
    if old:
        assert ways(new) == ways(old)
        assert [m.join for m in after.dynamics] == [m.join for m in before.dynamics]
    own, offered = ({t.key: t for t in g.techniques if t.layer != "none"} for g in (before, after))
    gone = [t for key, t in own.items() if key not in offered]
    for key in offered.keys() - own.keys():
        assert not gone or any(key in t.kin for t in gone), (key, gone)
    for technique in gone:
        stands = any(key in technique.kin for key in offered) or "ordinary" in technique.kin
        assert stands or any(clash(technique, other) for other in offered.values()), (technique.key, offered.keys())
    same = (old, own.keys(), before.attacks and before.attacks.count, [p.sounding_cents for p in before.points])
    then = (new, offered.keys(), after.attacks and after.attacks.count, [p.sounding_cents for p in after.points])
    if same != then:
        assert suggestion.changes_music


def ways(levels):
    """Whether each level is softer than the one before, the same, or louder."""
    return [(b > a) - (b < a) for a, b in pairwise(levels)]


@pytest.mark.parametrize("name", KNOWN)
def test_every_suggestion_removes_its_finding_and_causes_nothing_as_grave(name):
    refused, helped = looked_through(KNOWN[name])
    assert helped >= refused - NOTHING_ELSE.get(name, 0)


def test_made_up_gestures_are_all_put_right():
    refused = helped = 0
    for text in made_up(MADE_UP, seed=7):
        counts = looked_through(text)
        lacking = any(f.rule == "instrument-lacks-means" for g in checked(text).report.gestures for f in g.findings)
        if lacking and not counts[1]:
            continue  # an effect that is impossible there and has no kin to replace it
        refused, helped = refused + counts[0], helped + counts[1]
    assert refused > MADE_UP // 3
    assert helped >= 0.95 * refused


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
    assert only.verdict is Verdict.PLAYABLE


def test_a_key_that_is_not_there_goes_under_the_heading():
    offered = suggestions(horn("contour: C5 ~~ E5\nlasts: 2 beats"))
    assert any(s.edits[0] == Edit(5, "", "  technique: lip-gliss") for s in offered)


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


def test_two_gestures_of_one_name_are_not_put_right():
    """Edits of one would be based on the points of the other."""
    text = "instrument: horn\npitches: written\ngesture a\n  contour: C8 :: C5, r, C5\ngesture a\n  contour: C4\n"
    report = compile_text(Source("test.gesture", text), Options(only_check=True)).report
    assert [e.rule for e in report.errors] == ["repeated-name"]
    (said,) = report.gestures
    assert said.verdict is Verdict.NOT_AS_WRITTEN
    assert [s for f in said.findings for s in f.suggestions] == []


@pytest.mark.parametrize(
    ("body", "first"),
    [
        # Every level keeps its relation to the others, and the hairpins stay.
        ("contour: C4\nlasts: 14 beats\ndynamics: n < pp@4 < ff@8", "dynamics: n < pp@4 < mf@8"),
        ("contour: G2\nlasts: 2 beats\ndynamics: fff > p", "dynamics: ff > p"),
        ("technique: kiss\ncontour: xC5\ndynamics: ff", "dynamics: f"),
        ("technique: half-stopped\ncontour: C5 ff, D5 p\nlasts: 2 beats", "contour: C5 mf, D5 p"),
    ],
)
def test_a_softer_dynamic_keeps_its_shape_and_is_said_to_change_the_music(body, first):
    offered = suggestions(horn(body))
    assert [e.new.strip() for e in offered[0].edits] == [first]
    assert offered[0].changes_music


def test_too_many_kisses_become_fewer_or_slower_never_another_sound():
    offered = suggestions(horn("technique: kiss\ncontour: xC5\nlasts: 1 beat\nattacks: 16"))
    new = [e.new.strip() for s in offered for e in s.edits]
    assert any(n.startswith(("attacks:", "lasts:")) for n in new)
    assert not any(n.startswith("technique:") for n in new)


ALONE = "instrument: horn\npitches: written\ntempo: 60\n\ngesture call\n  contour: C1\n"


@pytest.mark.parametrize(
    ("passage", "offered"),
    [
        ("", ["C2", "C3", "F#2"]),
        ("\npassage all\n  play: call up 24\n", ["C2", "C3", "F#2"]),
        # Transposed this far, the gesture is in range, and would not be from C3.
        ("\npassage all\n  play: call up 42\n", ["C2", "F#2"]),
        ("\npassage all\n  play: inner\n\npassage inner\n  play: call up 42\n", ["C2", "F#2"]),
    ],
)
def test_what_would_harm_a_passage_is_not_offered(passage, offered):
    made = checked(ALONE + passage, suggestions=True)
    (finding,) = made.report.gestures[0].findings
    assert [e.new.strip() for s in finding.suggestions for e in s.edits] == [f"contour: {note}" for note in offered]
