"""The same input gives the same bytes: in any process, locale, time zone and folder, with or without a sandbox,
with one LilyPond or two, newly made or from the cache."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest
import timing
from cli.conftest import DEMO, REFUSED_DEMO
from sampling import SOAK, sample, whole

pytestmark = pytest.mark.lilypond

PIECE = DEMO.read_text("utf-8") if SOAK else DEMO.read_text("utf-8").partition("gesture rise")[0]
EXERCISES = """instrument: "player.toml"
pitches: written
title: "Exercises"
gesture beacon "Beacon"
  technique: half-valve
  contour: xG4 ~~ xD5@2 ~~ xB4@3
  lasts: 4 beats
exercises week-one "Week one"
  from: beacon
  start: G4, A4, B4, C5
  tempo: 60, 72
  order: easiest first
"""
PLAYER = 'instrument_profile = 1\nbased_on = "horn"\nname = "horn of the house"\n'
MAKE = ("--manifest", "out/{}.json", "-o", "out")
COMMANDS = (
    ("engrave", "--as", "pdf,svg,png,ily,ly", "--notes", *MAKE, "pieces"),
    ("notes", "--one-document", "--wording", "en,de", "--as", "pdf,ly", *MAKE, "more"),
    ("suggest", "--json", "--apply", "-o", "out", "pieces/refused.gesture"),
    ("chart", "--kind", "fingering", "--as", "pdf,svg,png,ly", *MAKE, "more/player.toml"),
    ("check", "--json", "pieces", "more"),
    ("sheet", "--as", "pdf,ly", *MAKE, "more"),
)  # fmt: skip
COMMANDS_OF_SOAK = (
    ("engrave", "--draft", "--pitches", "sounding", "--as", "pdf,ly", "-o", "out/drafts", "pieces/refused.gesture"),
    ("notes", "--one-document", "--as", "pdf,ly", "-o", "out/all", "pieces", "more"),
    ("sheet", "--as", "pdf,ly", "-o", "out", "--technique", "bend", "--instrument", "trumpet", "--level", "1,2"),
    ("chart", "--as", "pdf,svg,png,ly", "-o", "out/charts", "trombone"),
    ("suggest", "pieces"),
    ("explain", "difficulty"),
    ("list", "techniques"),
)  # fmt: skip
HERE = {"PYTHONHASHSEED": "1", "LC_ALL": "C", "TZ": "UTC"}
# A user who has replaced every font.
FONTS = """<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">
<fontconfig>
  <dir>/usr/share/fonts</dir>
  <match target="pattern">
    <edit name="family" mode="assign" binding="strong"><string>monospace</string></edit>
  </match>
</fontconfig>
"""
ELSEWHERE = {
    "PYTHONHASHSEED": "4321",
    "LC_ALL": "C.UTF-8",
    "LANG": "tr_TR.UTF-8",
    "LANGUAGE": "de",
    "TZ": "Pacific/Kiritimati",
    "COLUMNS": "40",
    "HOME": "/nowhere",
    "PYTHONUTF8": "1",
    "SOURCE_DATE_EPOCH": "1",
}


def made(folder: Path, environment: dict[str, str], *more: str) -> dict[str, bytes]:
    """Everything the commands write and print in a separate folder, by place or by number of the command."""
    for name in ("pieces", "more"):
        (folder / name).mkdir(parents=True)
    (folder / "pieces" / "fog.gesture").write_text(PIECE, "utf-8")
    (folder / "pieces" / "refused.gesture").write_bytes(REFUSED_DEMO.read_bytes())
    (folder / "more" / "week.gesture").write_text(EXERCISES)
    (folder / "more" / "player.toml").write_text(PLAYER)
    found = {}
    for number, command in enumerate((*sample(COMMANDS, 2), *(COMMANDS_OF_SOAK if SOAK else ()))):
        options = more if "-o" in command and command[0] != "suggest" else ()
        done = timing.run(
            [sys.executable, "-m", "gesturesmith.cli.main", *(a.format(number) for a in command), *options],
            cwd=folder,
            env={**os.environ, **environment},
        )
        assert done.returncode in (0, 1), done.stderr.decode()
        found[f"{number} says"] = done.stdout + done.stderr
    return found | {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


@whole
def test_the_same_bytes_everywhere(tmp_path):
    shared = {"GESTURESMITH_CACHE": str(tmp_path / "cache")}
    for name in ("home/.config/fontconfig/fonts.conf", "fonts.conf"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(FONTS)
    fonts = {"HOME": str(tmp_path / "home"), "FONTCONFIG_FILE": str(tmp_path / "fonts.conf")}
    first = made(tmp_path / "a", HERE | fonts, "--no-cache", "--jobs", "1", "--sandbox", "never")
    endings = {Path(name).suffix for name in first}
    assert endings >= {".pdf", ".svg", ".png", ".ily", ".ly", ".json", ".gesture"}
    assert len(first) > 30
    cold = made(tmp_path / "far" / "away, b", ELSEWHERE | shared, "--jobs", "2")
    warm = made(tmp_path / "c", HERE | shared)
    for other in (cold, warm):
        assert sorted(other) == sorted(first)
        assert [name for name in first if first[name] != other[name]] == []
