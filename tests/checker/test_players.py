"""Findings based on a limit set by a player say so; others do not."""

from pathlib import Path

from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

PLAYER = 'instrument_profile = 1\nplayer = "second horn"\nbased_on = "horn"\n\n[limits]\n'
PIECE = "pitches: written\ntempo: 60\n\ngesture a\n  contour: C5\n  lasts: 12 beats\n  dynamics: mf\n"


def findings(folder: Path, limits: str, piece: str = PIECE):
    (folder / "me.toml").write_text(PLAYER + limits)
    report = compile_text(
        Source("a", f'instrument: "me.toml"\n{piece}'), Options(folder=folder, only_check=True)
    ).report
    assert report.readable, [e.message for e in report.errors]
    return [f for g in report.gestures for f in g.findings]


def test_a_limit_of_the_player(tmp_path):
    assert findings(tmp_path, "breath_litres = { narrow = 5, wide = 6 }") == []
    (found,) = findings(tmp_path, 'breath_litres = { narrow = 1, source = "measured in a lesson" }')
    assert found.rule == "breath-too-short"
    assert found.text.endswith("a breath holds about 1 (this player)")
    assert found.evidence.source == "this player, second horn: measured in a lesson"


def test_a_limit_of_all_players_beside_it(tmp_path):
    piece = PIECE.replace("lasts: 12 beats", "lasts: 60 beats")
    (found,) = findings(tmp_path, "lip_correction_cents = { narrow = 40 }", piece)
    assert found.rule == "breath-too-short"
    assert "this player" not in found.text + found.evidence.source


def test_rates_and_refusals(tmp_path):
    piece = PIECE.replace("lasts: 12 beats", "lasts: 1 beat\n  attacks: 6")
    assert findings(tmp_path, "single_tongue_per_s_high = { narrow = 8 }", piece) == []
    (slow,) = findings(tmp_path, "single_tongue_per_s_high = { narrow = 3 }", piece)
    assert slow.severity.value == "caution"
    assert slow.text.endswith("up to 3 (this player)")
    (never,) = findings(tmp_path, "single_tongue_per_s_high = { narrow = 3, wide = 4 }", piece)
    assert never.severity.value == "refused"
    assert never.text.endswith("up to 4 (this player)")


def told(folder: Path, limits: str, piece: str):
    return [f for f in findings(folder, limits, piece) if f.rule == "pitch-no-tube-gives"]


def test_a_lip_that_bends_less_bends_less_both_ways(tmp_path):
    """Files from before there were separate limits use the one for both."""
    piece = PIECE.replace("lasts: 12 beats", "lasts: 2 beats")
    low = piece.replace("contour: C5", "contour: E2+25c")
    assert low != piece
    assert "pitch-no-tube-gives" not in {f.rule for f in findings(tmp_path, "", low)}
    (found,) = told(tmp_path, "lip_correction_cents = { narrow = 20 }", low)
    assert "brings it up by up to 20 (this player)" in found.text
    (up,) = told(tmp_path, "lip_correction_up_cents = { narrow = 10 }", low)
    assert "brings it up by up to 10 (this player)" in up.text
