"""Gestures, passages and exercises judged as a whole."""

import json

import pytest
from rules.checking import checked, findings, horn

from gesturesmith.diagnostics import Report, Severity, Verdict, render_json, render_text


def said(text, name="a", **more):
    return next(g for g in checked(text, **more).report.gestures if g.name == name)


def test_verdicts():
    assert said(horn("contour: C5")).verdict is Verdict.PLAYABLE
    assert said(horn("contour: D6")).verdict is Verdict.WITH_CARE
    assert said(horn("contour: C7")).verdict is Verdict.NOT_AS_WRITTEN


def test_advice_alone_is_playable():
    made = said(horn("technique: harmonic-gliss\ncontour: C4 ~~ C6\nlasts: 2 beats"))
    assert [f.severity for f in made.findings] == [Severity.ADVICE]
    assert made.verdict is Verdict.PLAYABLE


def test_the_place_is_said_in_words():
    (finding,) = said(horn("contour: C5, r, D6")).findings
    assert finding.where == "second note (written D6)"


def test_pitches_are_named_as_written_and_as_they_sound():
    (finding,) = said(horn("contour: D6")).findings
    assert "D6 (sounding G5)" in finding.text


# --- fallback ---------------------------------------------------------------------------------------------

TWO_PARTIALS = "technique: harmonic-gliss\ncontour: C3 ~~ G3\nlasts: 2 beats\n"


def test_a_fallback_takes_the_place_of_what_is_refused():
    made = checked(horn(TWO_PARTIALS + "fallback: chromatic"))
    (report,) = made.report.gestures
    assert report.verdict is Verdict.WITH_CARE
    assert "fallback-used" in [f.rule for f in report.findings]
    assert "harmonic-gliss-too-few-partials" in report.findings[-1].text
    case = made.cases["a"]
    assert case.realisation.used_fallback == "chromatic"
    assert [t.key for t in case.techniques] == ["chromatic"]
    assert {t.key for p in case.gesture.points for t in p.techniques} == {"chromatic"}


def test_a_fallback_keeps_the_techniques_of_other_layers():
    made = checked(horn(TWO_PARTIALS.replace("gliss", "gliss + muted", 1) + "fallback: chromatic"))
    assert [t.key for t in made.cases["a"].techniques] == ["chromatic", "muted"]


def test_a_fallback_is_left_alone_where_nothing_is_refused():
    made = checked(horn("technique: harmonic-gliss\ncontour: G4 ~~ G5\nlasts: 2 beats\nfallback: chromatic"))
    assert made.cases["a"].realisation.used_fallback == ""
    assert made.report.gestures[0].verdict is Verdict.PLAYABLE


def test_a_fallback_that_is_refused_as_well_changes_nothing():
    made = checked(horn(TWO_PARTIALS + "fallback: slide-gliss"))
    assert made.cases["a"].realisation.used_fallback == ""
    assert made.report.gestures[0].verdict is Verdict.NOT_AS_WRITTEN


# --- allow ------------------------------------------------------------------------------------------------


def test_an_allowed_refusal_is_a_caution_that_carries_the_reason():
    text = horn("technique: harmonic-gliss\ncontour: C3 ~~ G3\nlasts: 2 beats\n"
                'allow: harmonic-gliss-too-few-partials "a slur is fine"')  # fmt: skip
    made = said(text)
    assert made.verdict is Verdict.WITH_CARE
    assert any("(allowed: a slur is fine)" in f.text for f in made.findings)


def test_an_allow_that_answers_nothing_is_told():
    (finding,) = said(horn('contour: C5\nallow: outside-range "why"')).findings
    assert finding.rule == "unused-allow"
    assert finding.severity is Severity.ADVICE


# --- passages ---------------------------------------------------------------------------------------------

FILE = """instrument: horn
pitches: written

gesture good
  contour: C5, D5

gesture bad
  contour: C7

passage one
  play: good, rest 2, C5 for 2

passage two
  play: good, bad, bad, rest 2

passage three
  play: good up 12, C7 for 1
"""


@pytest.fixture(scope="module")
def passages():
    return {p.name: p for p in checked(FILE).report.passages}


def test_a_passage_of_good_gestures_is_playable(passages):
    assert passages["one"].verdict is Verdict.PLAYABLE


def test_a_passage_is_refused_for_what_it_plays_and_names_it(passages):
    assert passages["two"].verdict is Verdict.NOT_AS_WRITTEN
    first, *_ = passages["two"].findings
    assert first.rule == "plays-refused"
    assert first.where == "bad"
    assert "outside-range" in first.text


CARE = """instrument: horn
pitches: written
tempo: 60

gesture long
  contour: C5
  lasts: 30 beats

gesture allowed
  contour: C5
  lasts: 30 beats
  allow: breath-too-short "a second player takes over"

passage once
  play: long, rest 30

passage nested
  play: once, rest 30, once

passage moved
  play: long up 2, rest 30

passage answered
  play: allowed, rest 30
"""


@pytest.mark.parametrize(
    ("name", "verdict", "places"),
    [
        ("once", Verdict.WITH_CARE, [15]),
        ("nested", Verdict.WITH_CARE, [18]),
        ("moved", Verdict.WITH_CARE, [21]),
        ("answered", Verdict.PLAYABLE, []),
    ],
)
def test_the_verdict_of_a_passage_is_the_worst_of_what_it_plays(name, verdict, places):
    # The language page: the verdict is the worst severity; nothing a passage plays is easier in it.
    report = checked(CARE).report
    assert [g.verdict for g in report.gestures] == [Verdict.WITH_CARE, Verdict.PLAYABLE]
    said = next(p for p in report.passages if p.name == name)
    assert said.verdict is verdict
    assert [f.span.line for f in said.findings if "breath-too-short" in (f.rule + f.text)] == places
    as_json = json.loads(render_json(Report(files=(report,))))["files"][0]["passages"]
    assert next(p["verdict"] for p in as_json if p["name"] == name) == verdict.value
    assert f"{name}, long: plays-with-care" in render_text(Report(files=(report,)), colour=False) or name in (
        "moved",
        "answered",
    )


def test_a_moved_gesture_is_judged_where_it_is_played(passages):
    found = {(f.where, f.rule) for f in passages["three"].findings}
    assert ("good, second note (written D6)", "outside-usual-range") in found
    assert ("this note", "outside-range") in found
    assert passages["three"].verdict is Verdict.NOT_AS_WRITTEN


def test_every_passage_has_a_case_for_each_item():
    for case in checked(FILE).passage_cases.values():
        assert len(case.cases) == len(case.passage.items) == len(case.refusals)


# --- exercises --------------------------------------------------------------------------------------------


def test_variants_that_are_refused_are_left_out_with_the_reason():
    text = horn("contour: A5, C6") + "\nexercises week\n  from: a\n  start: A5..A6 by 6\n  keep: all\n"
    (made,) = checked(text).report.exercises
    assert made.made >= 1
    assert made.left_out
    assert all("outside-range" in reason and label for label, reason in made.left_out)


def test_no_more_variants_are_made_than_are_kept():
    text = horn("contour: C5, D5") + "\nexercises week\n  from: a\n  start: C4..C5 by 1\n  keep: 4\n"
    (made,) = checked(text).report.exercises
    assert made.made == 4
    assert made.left_out == ()


# --- the whole report -------------------------------------------------------------------------------------


def test_findings_stand_in_file_order():
    text = horn("contour: D6, C5, D6\ndynamics: ppp\nlasts: 3 beats")
    places = [(f.span.line, f.span.column) for f in findings(text)]
    assert places == sorted(places)
    assert len(places) >= 2


def test_both_renderings_take_a_real_report():
    report = Report(files=(checked(FILE, suggestions=True).report,))
    assert "not as written: bad, first note (written C7): outside-range\n" in render_text(report, colour=False)
    made = json.loads(render_json(report))
    assert [g["verdict"] for g in made["files"][0]["gestures"]] == ["playable", "not-as-written"]
    assert made["files"][0]["gestures"][0]["realisation"]["points"][0]["at"] == "0"


def test_the_same_text_gives_the_same_bytes():
    first, second = (render_json(Report(files=(checked(FILE, suggestions=True).report,))) for _ in range(2))
    assert first == second
