"""What must stay the same, or may only become milder, when a text changes without changing its meaning."""

from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from rules.checking import checked, horn
from sampling import count

from gesturesmith.diagnostics import Severity, Verdict
from gesturesmith.evidence import PUBLISHED, Limit, Sourced
from gesturesmith.instruments import get, names
from gesturesmith.instruments.base import Instrument
from gesturesmith.judge.gesture import judge
from gesturesmith.realise.curve import along
from gesturesmith.rules.shared.account import account
from gesturesmith.units import Spelling, spell

MARKED = Path(__file__).parents[1] / "rules" / "marked"
HORN = get("horn")


def blocks(text):
    """The settings of a file and its blocks, with their comments and blank lines."""
    head, *rest = text.split("\n\n")
    return head, [b for b in rest if b.strip()]


def found(said):
    """The findings on a gesture, without their place in the file."""
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
@settings(max_examples=count(15, 60))
def test_written_and_sounding_files_of_the_same_music_give_the_same_findings(gesture, tempo):
    technique, notes, lines, beats = gesture
    written = horn(body(technique, notes, lines, beats), tempo=tempo)
    heard = [HORN.heard(n) for n in notes]
    sounding = horn(body(technique, heard, lines, beats), tempo=tempo).replace("written", "sounding")
    first, second = (checked(text).report.gestures[0] for text in (written, sounding))
    assert found(first) == found(second)
    assert first.realisation == second.realisation


@given(gestures(), st.sampled_from([40, 60, 100]))
@settings(max_examples=count(15, 60))
def test_double_tempo_with_double_durations_gives_the_same_findings(gesture, tempo):
    technique, notes, lines, beats = gesture
    slow = checked(horn(body(technique, notes, lines, beats), tempo=tempo)).report.gestures[0]
    fast = checked(horn(body(technique, notes, lines, 2 * beats), tempo=2 * tempo)).report.gestures[0]
    assert found(slow) == found(fast)


@given(gestures(), st.integers(0, 12), st.integers(0, 12))
@settings(max_examples=count(15, 60))
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
@settings(max_examples=count(20, 80))
def test_a_playable_bend_stays_so_when_it_is_narrowed(note, quarters, way):
    def verdict(width):
        target = spell(note.pitch_cents + way * 50 * width)
        return checked(
            horn(f"technique: bend\ncontour: {note.name} -- {target.name} -- {note.name}\nlasts: 4 beats")
        )

    wide, narrow = verdict(quarters + 1), verdict(quarters)
    rank = {Verdict.PLAYABLE: 0, Verdict.WITH_CARE: 1, Verdict.NOT_AS_WRITTEN: 2}
    bends = [[f for f in made.report.gestures[0].findings if f.rule == "bend-too-wide"] for made in (wide, narrow)]
    assert len(bends[1]) <= len(bends[0])
    if not bends[0]:
        assert rank[narrow.report.gestures[0].verdict] <= rank[wide.report.gestures[0].verdict]


@given(gestures())
@settings(max_examples=count(15, 60))
def test_nothing_is_refused_on_a_value_of_our_own(gesture):
    for finding in checked(horn(body(*gesture))).report.gestures[0].findings:
        assert finding.severity is not Severity.REFUSED or finding.evidence.kind.may_refuse


# --- a wider instrument ----------------------------------------------------------------------------------


def wider(instrument: Instrument, factor: float) -> Instrument:
    """The instrument with every reading of every limit widened, and more partials on each tube."""
    limits = {name: _wider(name, limit, factor) for name, limit in instrument.limits.items()}
    tubes = tuple(
        replace(t, partials=(t.partials[0], t.partials[1] + 1), widest_partials=(1, t.widest_partials[1] + 1))
        for t in instrument.tubes
    )
    return replace(instrument, key="wider", limits=limits, tubes=tubes)


# Minimum values: wider means less.
_LEAST = {
    "hand_out_lowest_cents", "stopped_lowest_cents", "half_stopped_lowest_cents", "response_periods",
    "harmonic_gliss_min_partials", "harmonic_gliss_arpeggio_partial", "mute_change_s",
    "hand_change_s", "tongue_change_s", "mute_change_cup_s", "mute_change_bucket_s", "mute_change_plunger_s",
    "cover_change_s", "split_tone_lowest_partial", "band_narrowest_cents", "breath_flow_least",
}  # fmt: skip


def _wider(name: str, limit: Limit, factor: float) -> Limit:
    if name in ("in_tune_cents", "harmonic_gliss_exact_cents", "harmonic_gliss_about_cents"):
        return limit  # it decides which tube is chosen, not what is allowed
    if name.startswith(("effort_", "breath_flow")) or not isinstance(limit.narrow.value, int | float):
        return limit
    by = 1 / factor if name in _LEAST else factor
    narrow = replace(limit.narrow, value=limit.narrow.value * by)
    wide = None if limit.wide is None else replace(limit.wide, value=limit.wide.value * by)
    return Limit(narrow, wide, limit.unit)


@given(gestures(), st.sampled_from([1.0, 1.1, 1.5, 3.0]), st.sampled_from([60, 160]))
@settings(max_examples=count(30, 120))
def test_wider_limits_and_more_partials_never_refuse_more(gesture, factor, tempo):
    (made,) = checked(horn(body(*gesture), tempo=tempo)).cases.values()
    before = {f.rule for f in judge(made.gesture).refusals}
    after = {f.rule for f in judge(replace(made.gesture, instrument=wider(HORN, factor))).refusals}
    assert after <= before


F_SHARP, B, E = (spell(100 * n) for n in (42, 59, 64))


@given(gestures())
@example(("harmonic-gliss", [F_SHARP, F_SHARP, F_SHARP, B, E], [", ", ", ", ", ", " ~~ "], 1))
@settings(max_examples=count(20, 80))
def test_a_second_side_never_refuses_more(gesture):
    """The double horn has everything the single horn in F has, and the B-flat side.

    A sweep is played on a tube that has its ends, if there is one. If the single horn has none, it cautions that
    the sweep starts and lands elsewhere: so it plays another sweep than the one asked for, which the B-flat side
    may have with no partials in between.
    """
    (made,) = checked(horn(body(*gesture))).cases.values()
    single = judge(replace(made.gesture, instrument=get("horn-f")))
    double = judge(made.gesture)
    more = {f.rule for f in double.refusals} - {f.rule for f in single.refusals}
    if any(f.rule == "harmonic-gliss-off-ladder" for f in single.findings):
        more.discard("harmonic-gliss-too-few-partials")
    assert not more


# --- rests -----------------------------------------------------------------------------------------------


ITEMS = st.lists(st.one_of(st.integers(1, 3).map("rest {}".format), st.sampled_from("ab")), min_size=1, max_size=8)
EFFORT = """instrument: horn
pitches: written
tempo: 60

gesture a
  technique: growl
  contour: A5
  lasts: 8 beats
  dynamics: ff

gesture b
  contour: C4, r, G4
  lasts: 6 beats

passage p
  play: {play}
"""


def owed(play: list[str]) -> list[float]:
    """The effort owed after each gesture of a passage, in seconds of plain playing."""
    (case,) = checked(EFFORT.format(play=", ".join(play))).passage_cases.values()
    return [after for _, after, gesture in account(case) if gesture is not None]


@given(ITEMS.filter(lambda items: set("ab") & set(items)), st.data())
@settings(max_examples=count(15, 60))
def test_adding_a_rest_never_adds_effort(items, data):
    place = data.draw(st.integers(0, len(items)))
    length = data.draw(st.integers(1, 30))
    before, after = owed(items), owed([*items[:place], f"rest {length}", *items[place:]])
    assert all(b <= a + 1e-9 for a, b in zip(before, after, strict=True))


# --- curves ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", [n for n in names() if get(n).limits.get("bend_down_low")])
def test_bends_narrow_with_height_and_go_further_down_than_up(name):
    """Downwards from about a third at the bottom to about a quarter tone at the top, upwards only a little
    (Buckner): less than a quarter tone anywhere. Without jumps.
    """
    instrument = get(name)
    low, high = instrument.usual_range.value
    heights = range(low, high + 1, 10)
    down, up = ([along(instrument, f"bend_{way}", c).narrow.value for c in heights] for way in ("down", "up"))
    for widths in (down, up):
        steps = [a - b for a, b in pairwise(widths)]
        assert all(0 <= s <= 10 for s in steps)
    assert all(d > u for d, u in zip(down, up, strict=True))
    assert max(down) <= 400
    assert 20 <= min(up) <= max(up) < 50
