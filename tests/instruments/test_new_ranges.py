"""What the instruments of the orchestra do as a matter of course, by their sources."""

from __future__ import annotations

import pytest

import gesturesmith


def rules(instrument: str, body: str) -> set[str]:
    text = f"instrument: {instrument}\npitches: written\ntempo: 60\ngesture a\n  {body}"
    (report,) = gesturesmith.check(text).gestures
    return {finding.rule for finding in report.findings if finding.severity.rank}


# Wikipedia, Pitch of brass instruments: trombones, euphonium and tuba are whole-tube instruments; the horn is not
# (Thompson, IoA 2010).
@pytest.mark.parametrize(
    ("instrument", "pedal", "loud"),
    [("trombone", "Bb1", True), ("euphonium", "Bb1", True), ("tuba", "C1", True), ("horn", "F2", False)],
)
def test_whole_tube_instruments_have_loud_pedal_notes(instrument: str, pedal: str, loud: bool) -> None:
    found = rules(instrument, f"contour: {pedal}\n  dynamics: fff\n  lasts: 1 beat")
    assert ("pedal-too-loud" in found) is not loud


def test_a_man_sings_down_to_a2() -> None:
    """abjad 3.31, BaritoneVoice: A2 to A4; BassVoice begins at E2. The horn's part is a fifth above the sound."""
    assert rules("horn", "technique: multiphonic\n  contour: C4\n  sing: E3") == set()
    assert rules("horn", "technique: multiphonic\n  contour: C4\n  sing: Eb3") == {"sung-note-out-of-voice"}


# Wikipedia, Contrabass trombone: C1 to D4. Notes the valves are for: B1 lies beyond the slide's six positions. The
# natural trumpet has partials 3, 8, 11 and 16, and nothing at A3. A trumpet in F plays written G5.
PLAYABLE = [
    ("contrabass-trombone", "C1, B1, G1, D4"),
    ("natural-trumpet", "G3, C5, F5, C6"),
    ("trumpet-f", "C3, G4, G5"),
]


@pytest.mark.parametrize(("instrument", "contour"), PLAYABLE)
def test_they_play_what_they_are_for(instrument: str, contour: str) -> None:
    assert rules(instrument, f"contour: {contour}\n  lasts: 8 beats") == set()


def test_and_not_what_they_lack() -> None:
    assert rules("natural-trumpet", "contour: A3") == {"pitch-no-tube-gives"}
    assert rules("contrabass-trombone", "contour: E0") == {"outside-range"}
    assert rules("trumpet-f", "contour: F#6") == {"outside-range"}


def test_both_triggers_can_be_asked_for() -> None:
    assert rules("bass-trombone", "contour: D2\n  fingering: TT 1") == set()
    assert rules("contrabass-trombone", "contour: Bb1\n  fingering: Bb 1") == set()
