"""Messages for players: the terms of the instrument, true sentences, and suitable suggestions."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from rules.checking import checked, figures, findings, horn

from gesturesmith import instruments
from gesturesmith.diagnostics import Severity

STEPS = "C4 C#4 D4 Eb4 E4 F4 F#4 G4 G#4 A4 Bb4 B4 C5 C#5 D5 Eb5 E5 F5"


def file(instrument: str, body: str, tempo: int = 60) -> str:
    lines = "\n".join(f"  {line.strip()}" for line in body.strip().splitlines())
    return f"instrument: {instrument}\npitches: written\ntempo: {tempo}\n\ngesture a\n{lines}\n"


def one(text: str, rule: str):
    found = [f for f in findings(text) if f.rule == rule]
    assert len(found) == 1, [f.rule for f in findings(text)]
    return found[0]


def first_edit(text: str, rule: str) -> str:
    report = checked(text, suggestions=True).report
    found = next(f for f in report.gestures[0].findings if f.rule == rule)
    return found.suggestions[0].edits[0].new.strip()


@pytest.mark.parametrize(
    ("instrument", "body", "rule", "words"),
    [
        ("trombone", "technique: harmonic-gliss\ncontour: Bb3 ~~ Bb4", "sounds-as-arpeggio", "position 5"),
        ("trombone", "contour: D4\nfingering: 5", "fingering-misses-pitch", "position 5"),
        ("trumpet", "contour: F5\nfingering: 0", "fingering-misses-pitch", "open tube"),
        ("natural-horn", "contour: D3", "pitch-no-tube-gives", "open tube"),
    ],
)
def test_tubes_are_named_as_players_name_them(instrument: str, body: str, rule: str, words: str) -> None:
    assert words in one(file(instrument, body), rule).text


def test_a_run_is_fingered_on_valves_only() -> None:
    """A trombone plays it with the slide."""
    body = "technique: chromatic\ncontour: Bb3 ~~ Bb4\nlasts: 1/2 beats"
    assert "finger" not in one(file("trombone", body), "run-too-fast").text
    assert "finger" in one(file("trumpet", body), "run-too-fast").text


@pytest.mark.parametrize("key", ["trombone", "trombone-f", "bass-trombone"])
def test_a_trombone_is_not_said_to_have_no_valves(key: str) -> None:
    """One with a trigger has, but none to finger notes with."""
    found = one(file(key, "technique: valve-trill\ncontour: D4"), "instrument-lacks-means")
    assert instruments.get(key).name in found.text
    assert "no valves" not in found.text


def test_the_slide_takes_the_place_of_half_valves() -> None:
    text = file("trombone", "technique: half-valve\ncontour: xBb3 ~~ xF3\nlasts: 2 beats")
    assert first_edit(text, "instrument-lacks-means") == "technique: slide-gliss"


def test_a_hand_glissando_upward_can_begin_closed() -> None:
    text = horn("technique: hand-gliss\ncontour: B4 -- C5\nlasts: 2 beats")
    assert first_edit(text, "hand-gliss-rises-from-open") == "contour: B4 as stopped -- C5 as ordinary"


def test_the_widest_hand_glissando_is_not_said_to_pass_what_is_possible() -> None:
    """C4 to Ab3 is 400 cents as written, 398 by the law; within what counts as in tune that is the same."""
    found = one(horn("technique: hand-gliss\ncontour: C4 -- Ab3\nlasts: 2 beats"), "hand-gliss-too-wide")
    assert found.severity is Severity.CAUTION
    assert figures(found.text)[0] == figures(found.text)[-1] == 398


def test_a_glissando_is_not_made_flat_to_bring_it_into_range() -> None:
    report = checked(
        file("trombone", "technique: slide-gliss\ncontour: E2 -- Eb2\nlasts: 2 beats"), suggestions=True
    )
    offered = [e.new for f in report.report.gestures[0].findings for s in f.suggestions for e in s.edits]
    assert offered
    assert not [text for text in offered if "E2 -- E2" in text]


def test_a_pitch_below_the_chart_is_led_to_the_chart() -> None:
    """Written F#3 is the trumpet's lowest note on 1-2-3 (Wikipedia, Pitch of brass instruments), however sharp."""
    text = file("trumpet", "contour: F3")
    assert {"F#3+54c", "1-2-3,"} <= {*one(text, "pitch-no-tube-gives").text.replace("(", " ").split()}
    assert first_edit(text, "pitch-no-tube-gives") == "contour: F#3"


@pytest.mark.parametrize("beats", [1, 2])
def test_one_beat_is_a_beat(beats: int) -> None:
    text = (
        f"instrument: horn\npitches: written\ntempo: {60 * beats}\n\n"
        "gesture a\n  technique: muted\n  mute: plunger\n  contour: C5\npassage b\n  play: C5 for 1, a\n"
    )
    assert one(text, "mute-change-too-quick").hint.split()[1:3] == ["1", "beat"]


def test_long_times_are_told_in_minutes() -> None:
    text = (
        "instrument: horn\npitches: written\ntempo: 60\n\ngesture a\n  technique: growl\n  contour: A5\n"
        "  lasts: 8 beats\n  dynamics: ff\npassage b\n  play: a, a\n  repeat: 20\n"
    )
    found = one(text, "effort-overdrawn")
    assert "minutes" in found.text.split()
    assert "rests" in found.hint.split()


def test_seconds_are_offered_as_they_are_written() -> None:
    text = file("trumpet", "contour: C5, D5, E5\nlasts: 0.000001 s")
    assert first_edit(text, "attacks-too-fast") == "lasts: 0.1 s"


# M. Clayville, 2011: a glissando must stay on one partial. OEIS A309909 (Kennan): Bb3 in 1, E3 in 7, E2 lowest.
@pytest.mark.parametrize(
    ("contour", "notes"),
    [("Bb3 -- Eb3", ["Bb3", "E3"]), ("E2 -- Eb2", ["E2"]), ("xE2 -- xD2", ["E2"])],
)
def test_where_a_slide_glissando_breaks(contour: str, notes: list[str]) -> None:
    text = file("trombone", f"technique: slide-gliss\ncontour: {contour}\nlasts: 2 beats")
    said = one(text, "slide-gliss-breaks").text
    assert re.findall(r"\b[A-G]b?\d\b", said.partition(";")[0]) == notes
    assert "slide" in said.split()


def test_a_slide_glissando_cannot_end_where_no_tube_sounds() -> None:
    """Eb2 to B1 are missing on a tenor trombone without a valve (whistleandflute.net)."""
    found = one(
        file("trombone", "technique: slide-gliss\ncontour: E2 -- D2\nlasts: 2 beats"), "pitch-no-tube-gives"
    )
    assert found.severity is Severity.REFUSED


@pytest.mark.parametrize(("beats", "fires"), [("1/8", True), ("2", False)])
def test_the_arm_has_its_speed_in_a_glissando_too(beats: str, fires: bool) -> None:
    text = file("trombone", f"technique: slide-gliss\ncontour: Bb2 -- E2\nlasts: {beats} beats")
    assert ("slide-travel-too-fast" in [f.rule for f in findings(text)]) == fires


# Sixteenths at 160 are 10.7 a second: a player double-tongues them; at 240 they are 16.
@pytest.mark.parametrize(("tempo", "fires"), [(240, True), (160, False)])
def test_the_tongue_has_its_speed_from_note_to_note_of_a_passage(tempo: int, fires: bool) -> None:
    notes = ", ".join(["C5 for 1/4"] * 6)
    text = f"instrument: trumpet\npitches: written\ntempo: {tempo}\n\npassage a\n  play: {notes}\n"
    assert ("attacks-too-fast" in [f.rule for f in findings(text)]) == fires


def test_two_quick_notes_are_no_run() -> None:
    notes = "C5 for 1/32, C5 for 4, C5 for 1/32"
    text = f"instrument: trumpet\npitches: written\ntempo: 60\n\npassage a\n  play: {notes}\n"
    assert "attacks-too-fast" not in [f.rule for f in findings(text)]


def test_a_half_step_of_the_hand_is_never_too_wide() -> None:
    """D. Hill, contents, and bnelsonmusic.wordpress.com name it; some of these fingerings are sharp."""
    for low, high in pairwise(STEPS.split()):
        found = findings(horn(f"technique: hand-gliss\ncontour: {high} -- {low}\nlasts: 2 beats"))
        assert "hand-gliss-too-wide" not in [f.rule for f in found], (high, low)


def test_a_wrong_fingering_of_a_repeated_note_is_told_once() -> None:
    one(horn("technique: stopped\ncontour: C5, C5, C5\nfingering: F 2-3\nlasts: 3 beats"), "fingering-misses-pitch")


@pytest.mark.parametrize(
    ("contour", "meant"),
    [("C5, D5@0.33, E5@0.67", "1/3"), ("C5, D5@2.1667", "13/6"), ("C5, D5@0.37", ""), ("C5, D5@5/37", "")],
)
def test_a_decimal_that_stands_for_a_fraction_leads_to_it(contour: str, meant: str) -> None:
    found = one(horn(f"contour: {contour}\nlasts: 3 beats"), "no-note-value")
    assert found.hint.startswith(f"write {meant} ") if meant else not found.hint
