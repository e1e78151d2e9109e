"""The language server in a real editor that has the protocol built in (Neovim, headless)."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import timing

LUA = Path(__file__).parent / "editor.lua"
OLDEST = (0, 7)  # with the calls that the script uses

TEXT = (
    "instrument: horn\npitches: written\n\n"
    'gesture deep "🎺🎺 Deep"\n  technique: harmonic-gliss\n  contour: C4 ~~ E4\n  lasts: 4 beats\n\n'
    'passage all  # 🎺\n  play: C4 for 1 "🎺🎺", deep, rest 4\n'
)


def _editor() -> str | None:
    program = shutil.which("nvim")
    if program is None:
        return None
    said = timing.run([program, "--version"], text=True).stdout
    found = re.match(r"NVIM v(\d+)\.(\d+)", said)
    return program if found and (int(found[1]), int(found[2])) >= OLDEST else None


EDITOR = _editor()


@pytest.mark.skipif(EDITOR is None, reason="no Neovim 0.7 or newer: the language server is not tried in an editor")
def test_a_composer_works_in_an_editor(tmp_path: Path):
    text, answers = tmp_path / "deep.gesture", tmp_path / "answers.json"
    text.write_text(TEXT, "utf-8")
    patience = timing.Patience()
    environment = os.environ | {
        "GESTURESMITH_EDITOR_TEST": json.dumps([sys.executable, str(text), str(answers)]),
        "GESTURESMITH_EDITOR_WAITS": str(int(1000 * patience.left() / 3)),
        "XDG_STATE_HOME": str(tmp_path),
        "XDG_CACHE_HOME": str(tmp_path),
        "XDG_DATA_HOME": str(tmp_path),
    }
    command = [str(EDITOR), "--headless", "-u", "NONE", "-n", "-c", f"luafile {LUA}", "-c", "qa!"]
    done = timing.run(command, env=environment, stdin=subprocess.DEVNULL, text=True)
    assert answers.is_file(), done.stdout + done.stderr
    said = json.loads(answers.read_text("utf-8"))
    assert said["told"]
    assert {one["code"] for one in said["first"]} >= {"GS203"}
    assert any("chromatic" in title for title in said["actions"])
    assert said["after"] != TEXT.splitlines()
    assert said["cleared"], said["after"]
    assert 'gesture cave "🎺🎺 Deep"' in said["renamed"]
    assert '  play: C4 for 1 "🎺🎺", cave, rest 4' in said["renamed"]
    assert said["completed"] == "  technique: flutter-tongue"
    assert "Roll the tongue" in said["help"]
