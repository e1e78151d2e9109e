"""What must stay the same, or may only get milder, when a text changes in a way that means the same."""

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rules.checking import checked, horn

from gesturesmith.check.judge import judge
from gesturesmith.diagnostics import Severity, Verdict
from gesturesmith.evidence import PUBLISHED, Sourced
from gesturesmith.instruments import get
from gesturesmith.units import Spelling, spell

MARKED = Path(__file__).parents[1] / "rules" / "marked"
HORN = get("horn")


def blocks(text):
    """The settings of a file and its blocks, comments and blank lines kept with them."""
    head, *rest = text.split("\n\n")
    return head, [b for b in rest if b.strip()]


def found(said):
    """What is found on a gesture, without its place in the file."""
    return sorted((f.code, f.where, f.text, f.severity.value) for f in said.findings)


@pytest.mark.parametrize("path", sorted(MARKED.glob("*.gesture")), ids=lambda p: p.stem)
def test_the_order_of_gestures_changes_nothing(path):
    text = path.read_text(encoding="utf-8")
    head, rest = blocks(text)
    forward = checked(text).report
    backward = checked("\n\n".join([head, *(b.strip("\n") for b in reversed(rest))]) + "\n").report
    assert {g.name: found(g) for g in forward.gestures} == {g.name: found(g) for g in backward.gestures}
    assert {p.name: found(p) for p in forward.passages} == {p.name: found(p) for p in backward.passages}


NOTES = st.integers(0, 42).map(lambda n: spell(4200 + 100 * n))
LINES = st.sampled_from([", ", " ~~ ", " -- ", " __ "])
TECHNIQUES = st.sampled_from(
    [
        "ordinary",
        "bend",
        "lip-gliss",
        "harmonic-gliss",
        "hand-gliss",
        "hand-out",
        "chromatic",
        "half-valve",
        "stopped",
        "growl",
        "muted",
        "flutter-tongue",
        "split-attack",
        "vibrato",
        "harmonic-gliss + flutter-tongue",
    ]
)


@st.composite
def gestures(draw):
    """A technique, two to five written notes with lines, and a length in beats."""
    notes = draw(st.lists(NOTES, min_size=2, max_size=5))
    lines = [draw(LINES) for _ in notes[1:]]
    return draw(TECHNIQUES), notes, lines, draw(st.sampled_from([1, 2, 4, 8, 30]))


def contour(notes: list[Spelling], lines: list[str]) -> str:
    return notes[0].name + "".join(line + note.name for line, note in zip(lines, notes[1:], strict=True))


def body(technique, notes, lines, beats):
    return f"technique: {technique}\ncontour: {contour(notes, lines)}\nlasts: {beats} beats"


@given(gestures(), st.sampled_from([40, 60, 132, 200]))
@settings(max_examples=60, deadline=None)
def test_written_and_sounding_files_of_the_same_music_give_the_same_findings(gesture, tempo):
    technique, notes, lines, beats = gesture
    written = horn(body(technique, notes, lines, beats), tempo=tempo)
    heard = [HORN.heard(n) for n in notes]
    sounding = horn(body(technique, heard, lines, beats), tempo=tempo).replace("written", "sounding")
    first, second = (checked(text).report.gestures[0] for text in (written, sounding))
    assert found(first) == found(second)
    assert first.realisation == second.realisation


@given(gestures(), st.sampled_from([40, 60, 100]))
@settings(max_examples=60, deadline=None)
def test_double_tempo_with_double_durations_gives_the_same_findings(gesture, tempo):
    technique, notes, lines, beats = gesture
    slow = checked(horn(body(technique, notes, lines, beats), tempo=tempo)).report.gestures[0]
    fast = checked(horn(body(technique, notes, lines, 2 * beats), tempo=2 * tempo)).report.gestures[0]
    assert found(slow) == found(fast)


@given(gestures(), st.integers(0, 12), st.integers(0, 12))
@settings(max_examples=60, deadline=None)
def test_a_wider_range_never_refuses_more(gesture, down, up):
    (made,) = checked(horn(body(*gesture))).cases.values()
    low, high = HORN.widest_range.value
    usual_low, usual_high = HORN.usual_range.value
    wider = replace(
        HORN,
        widest_range=Sourced((low - 100 * down, high + 100 * up), PUBLISHED, "wider"),
        usual_range=Sourced((usual_low - 50 * down, usual_high + 50 * up), PUBLISHED, "wider"),
    )
    before = {f.rule for f in judge(made.gesture).refusals}
    after = {f.rule for f in judge(replace(made.gesture, instrument=wider)).refusals}
    assert after <= before


@given(NOTES, st.integers(1, 8), st.sampled_from([-1, 1]))
@settings(max_examples=80, deadline=None)
def test_a_playable_bend_stays_so_when_it_is_narrowed(note, quarters, way):
    def verdict(width):
        target = spell(note.pitch_cents + way * 50 * width)
        return checked(
            horn(f"technique: bend\ncontour: {note.name} -- {target.name} -- {note.name}\nlasts: 4 beats")
        )

    wide, narrow = verdict(quarters + 1), verdict(quarters)
    rank = {Verdict.APPROVED: 0, Verdict.CAUTION: 1, Verdict.REFUSED: 2}
    bends = [[f for f in made.report.gestures[0].findings if f.rule == "bend-too-wide"] for made in (wide, narrow)]
    assert len(bends[1]) <= len(bends[0])
    if not bends[0]:
        assert rank[narrow.report.gestures[0].verdict] <= rank[wide.report.gestures[0].verdict]


@given(gestures())
@settings(max_examples=60, deadline=None)
def test_nothing_is_refused_on_a_value_of_our_own(gesture):
    for finding in checked(horn(body(*gesture))).report.gestures[0].findings:
        assert finding.severity is not Severity.REFUSED or finding.evidence.kind.may_refuse
