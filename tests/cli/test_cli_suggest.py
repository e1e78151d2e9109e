"""`suggest`: what would work, as lines to paste, and a copy that never overwrites anybody's work."""

from __future__ import annotations

import json
import re

import pytest
from cli.conftest import GOOD, HEAD, HIGH, REFUSED_DEMO, WRONG

SEVERAL = f"""{HEAD}
gesture sweep "A sweep"
  technique: harmonic-gliss  # as wide as it goes
  contour: C4 ~~ E4
  lasts: 2 beats

gesture heap
  technique: slide-gliss + half-stopped
  contour: C7, C8
  fingering: F 9
  lasts: 2 beats

passage both
  play: sweep, heap
"""


def test_the_lines_as_they_would_stand(here, run):
    (here / "a.gesture").write_text(SEVERAL)
    result = run("suggest", "a.gesture")
    assert result.status == 1
    assert '"A sweep" (sweep), line 4' in result.out
    assert "only partials 4 and 5 of F 0 lie on the way" in result.out
    assert "      5 was |   technique: harmonic-gliss  # as wide as it goes\n" in result.out
    assert "        now |   technique: chromatic  # as wide as it goes\n" in result.out
    assert "a.gesture: 2 not as written, all with suggestions" in result.out
    assert (here / "a.gesture").read_text() == SEVERAL
    assert [p.name for p in here.iterdir()] == ["a.gesture"]


def test_the_line_to_paste_is_the_one_that_was_checked(here, run):
    (here / "a.gesture").write_text(HIGH)
    out = run("suggest", "a.gesture").out
    now = [line.split("now | ")[1] for line in out.splitlines() if "now | " in line]
    assert 1 <= len(now) <= 3
    for line in now:
        (here / "b.gesture").write_text(HIGH.replace("  contour: G6", line))
        assert run("check", "b.gesture").status == 0


def test_apply_puts_all_right_in_a_copy(here, run):
    (here / "a.gesture").write_text(SEVERAL)
    result = run("suggest", "--apply", "a.gesture")
    assert result.status == 0
    assert "wrote a-suggested.gesture" in result.out
    assert "a-suggested.gesture: 2 gestures: " in result.out
    assert (here / "a.gesture").read_text() == SEVERAL
    assert sorted(p.name for p in here.iterdir()) == ["a-suggested.gesture", "a.gesture"]
    assert run("check", "a-suggested.gesture").status == 0
    copy = (here / "a-suggested.gesture").read_text().splitlines()
    assert re.match(r"# Made by Gesturesmith \[[0-9a-f]{12}\] from a.gesture", copy[0])
    kept = [line for line in SEVERAL.splitlines() if line in copy]
    assert {'gesture sweep "A sweep"', "  contour: C4 ~~ E4", "passage both", "  play: sweep, heap"} <= {*kept}


def test_the_demo(here, run):
    (here / "a.gesture").write_text(REFUSED_DEMO.read_text("utf-8"))
    assert run("suggest", "--apply", "a.gesture").status == 0
    assert run("check", "a-suggested.gesture").status == 0
    first = (here / "a-suggested.gesture").read_bytes()
    assert run("suggest", "--apply", "a.gesture").status == 0
    assert (here / "a-suggested.gesture").read_bytes() == first


def test_one_gesture_only(here, run):
    (here / "a.gesture").write_text(SEVERAL)
    out = run("suggest", "--only", "Sweep", "a.gesture").out
    assert "heap" not in out
    result = run("suggest", "--only", "sweep", "--apply", "a.gesture")
    assert result.status == 1  # the other one is refused as before
    copy = (here / "a-suggested.gesture").read_text()
    assert "technique: chromatic" in copy
    assert "contour: C7, C8" in copy
    missing = run("suggest", "--only", "swep", "a.gesture")
    assert missing.status == 2
    assert "no gesture is called swep; did you mean sweep" in missing.err


def test_nothing_to_put_right(here, run):
    (here / "a.gesture").write_text(GOOD)
    assert run("suggest", "a.gesture") == (0, "a.gesture: nothing to fix\n", "")
    result = run("suggest", "--apply", "a.gesture")
    assert (result.status, result.out) == (0, "a.gesture: nothing is refused; no copy was written\n")
    assert [p.name for p in here.iterdir()] == ["a.gesture"]


@pytest.mark.parametrize("more", [[], ["--apply"], ["--json"], ["--json", "--apply"]], ids=" ".join)
def test_a_file_with_errors_is_read_first(here, run, more):
    (here / "a.gesture").write_text(WRONG)
    result = run("suggest", *more, "a.gesture")
    assert result.status == 2
    assert "conture" in result.out
    assert [p.name for p in here.iterdir()] == ["a.gesture"]


def test_for_programs(here, run):
    (here / "a.gesture").write_text(SEVERAL)
    found = json.loads(run("suggest", "--json", "a.gesture").out)
    assert [g["verdict"] for g in found["files"][0]["gestures"]] == ["not-as-written", "not-as-written"]
    assert found["files"][0]["gestures"][0]["findings"][0]["suggestions"]
    made = json.loads(run("suggest", "--json", "--apply", "a.gesture").out)
    assert made["files"][0]["file"] == "a-suggested.gesture"
    assert "not-as-written" not in [g["verdict"] for g in made["files"][0]["gestures"]]


# --- what a copy never overwrites ------------------------------------------------------------------------


def test_not_over_a_file_of_the_users(here, run):
    (here / "a.gesture").write_text(SEVERAL)
    (here / "a-suggested.gesture").write_text("mine\n")
    result = run("suggest", "--apply", "a.gesture")
    assert result.status == 2
    assert "a-suggested.gesture already exists" in result.err
    assert (here / "a-suggested.gesture").read_text() == "mine\n"


def test_not_over_a_copy_that_was_worked_on(here, run):
    (here / "a.gesture").write_text(SEVERAL)
    run("suggest", "--apply", "a.gesture")
    path = here / "a-suggested.gesture"
    changed = path.read_text().replace('"A sweep"', '"My sweep"')
    path.write_text(changed)
    result = run("suggest", "--apply", "a.gesture")
    assert result.status == 2
    assert "has been edited" in result.err
    assert path.read_text() == changed
    assert run("suggest", "--apply", "-o", "b.gesture", "a.gesture").status == 0


def test_not_over_the_file_itself(here, run):
    (here / "a.gesture").write_text(SEVERAL)
    (here / "link.gesture").symlink_to("a.gesture")
    for place in ("a.gesture", "./a.gesture", "link.gesture"):
        result = run("suggest", "--apply", "-o", place, "a.gesture")
        assert result.status == 2
        assert "is the file itself" in result.err
        assert (here / "a.gesture").read_text() == SEVERAL


def test_where_it_goes(here, run):
    (here / "a.gesture").write_text(SEVERAL)
    (here / "b.gesture").write_text(HIGH)
    (here / "copies").mkdir()
    assert run("suggest", "--apply", "-o", "copies", "a.gesture", "b.gesture").status == 0
    assert sorted(p.name for p in (here / "copies").iterdir()) == ["a-suggested.gesture", "b-suggested.gesture"]
    assert run("suggest", "--apply", "-o", "new/deep/c.gesture", "a.gesture").status == 0
    assert (here / "new" / "deep" / "c.gesture").is_file()
    several = run("suggest", "--apply", "-o", "one.gesture", "a.gesture", "b.gesture")
    assert several.status == 2
    assert "-o must be an existing folder" in several.err
    assert run("suggest", "-o", "copies", "a.gesture").status == 2
    (here / "file").write_text("")
    assert run("suggest", "--apply", "-o", "file/x.gesture", "a.gesture").status == 2


def test_a_copy_has_to_find_its_instrument(here, run):
    (here / "mine.toml").write_text('instrument_profile = 1\nbased_on = "horn"\n')
    (here / "a.gesture").write_text(SEVERAL.replace("instrument: horn", 'instrument: "mine.toml"'))
    (here / "copies").mkdir()
    result = run("suggest", "--apply", "-o", "copies", "a.gesture")
    assert result.status == 2
    assert "cannot be read there" in result.err
    assert not list((here / "copies").iterdir())
    assert run("suggest", "--apply", "a.gesture").status == 0


def test_names_and_texts_cannot_steer_the_terminal(here, run):
    (here / "a\x1b[31m.gesture").write_text(SEVERAL.replace("A sweep", "A \u202esweep"))
    result = run("suggest", "a\x1b[31m.gesture")
    assert "\x1b" not in result.out + result.err
    assert "\u202e" not in result.out
    assert "\x1b" not in run("suggest", "--apply", "a\x1b[31m.gesture").out


def test_passages_come_after_their_gestures(here, run):
    moved = SEVERAL.replace("play: sweep, heap", "play: sweep up 40, heap")
    (here / "a.gesture").write_text(moved)
    assert "passage both" not in run("suggest", "a.gesture").out
    result = run("suggest", "--apply", "a.gesture")
    assert result.status == 0
    assert "both: play: sweep, heap\n" in result.out
    assert run("suggest", "a-suggested.gesture").status == 0
