"""Many files and folders: mirrored, counted, a bad file does not affect the others, and nothing is made twice."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
import timing
from cli.conftest import GOOD, HEAD, HIGH, WRONG
from sampling import whole

from gesturesmith.batch import running

ONLY_HIGH = f"{HEAD}\ngesture beyond\n  contour: G6\n"


def tree(folder: Path, **texts: str) -> None:
    """Files by path, with `__` for the slash."""
    for name, text in texts.items():
        path = folder / f"{name.replace('__', '/')}.gesture"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)


def made(folder: Path) -> list[str]:
    return sorted(str(p.relative_to(folder)) for p in folder.rglob("*") if p.is_file())


@pytest.fixture
def parts(here) -> Path:
    """A folder of parts, among files that must be skipped."""
    tree(here / "parts", a=GOOD, horn__b=HIGH, horn__deep__c=GOOD, horn__wrong=WRONG, none=ONLY_HIGH)
    tree(here / "parts", horn__d=GOOD)
    (here / "parts" / ".git").mkdir()
    (here / "parts" / ".git" / "hidden.gesture").write_text(GOOD)
    (here / "parts" / ".b.gesture").write_text(GOOD)
    (here / "parts" / "letter.txt").write_text("not music")
    return here / "parts"


def test_a_folder_is_mirrored(here, run, parts):
    result = run("engrave", "--as", "ily", "parts")
    assert result.status == 2
    ours = [f for f in made(here / "out") if not f.endswith("gesturesmith.ily")]
    assert ours == ["a/call.ily", "horn/b/call.ily", "horn/d/call.ily", "horn/deep/c/call.ily"]
    assert result.err == "parts/horn/wrong.gesture has errors; nothing was engraved\n"
    order = re.findall(r"^(parts/\S+?):", result.out, re.MULTILINE)
    assert list(dict.fromkeys(order)) == [
        "parts/a.gesture",
        "parts/none.gesture",
        "parts/horn/b.gesture",
        "parts/horn/d.gesture",
        "parts/horn/wrong.gesture",
        "parts/horn/deep/c.gesture",
    ]
    assert result.out.endswith(
        "total: 4 made, 0 unchanged, 1 refused, 1 failed; 1 written without their refused gestures\n"
        "  without refused gestures: parts/horn/b.gesture (beyond)\n"
        "  refused: parts/none.gesture\n"
        "  failed: parts/horn/wrong.gesture\n"
    )


@pytest.mark.lilypond
def test_only_what_changed_is_done_again(here, run, parts):
    """The second run does nothing; the third only what was changed or removed."""
    arguments = ("engrave", "--as", "pdf,svg", "--manifest", "out/manifest.json", "parts")
    first = run(*arguments)
    assert first.err == "parts/horn/wrong.gesture has errors; nothing was engraved\n"
    before = {f: (here / "out" / f).stat().st_mtime_ns for f in made(here / "out")}
    second = run(*arguments)
    assert "total: 0 made, 4 unchanged, 1 refused, 1 failed" in second.out
    assert "unchanged: all 3 files" in second.out
    assert second.status == first.status
    assert {f: (here / "out" / f).stat().st_mtime_ns for f in made(here / "out")} == before
    (parts / "a.gesture").write_text(GOOD.replace("C5", "D5"))
    (here / "out" / "horn" / "d" / "call.svg").unlink()
    third = run(*arguments)
    assert "total: 2 made, 2 unchanged, 1 refused, 1 failed" in third.out
    after = {f: (here / "out" / f).stat().st_mtime_ns for f in made(here / "out")}
    assert after.keys() == before.keys()
    changed = {f for f in after if after[f] != before[f]}
    assert changed == {"a.pdf", "a/call.pdf", "a/call.svg", "horn/d/call.svg", "manifest.json"}
    value = json.loads((here / "out" / "manifest.json").read_text())
    assert [o["file"] for o in value["outputs"]] == sorted(set(after) - {"manifest.json"})
    assert str(here) not in json.dumps(value)
    run("engrave", "--no-cache", "-o", "fresh", *arguments[1:-1], "parts")
    assert {f: (here / "fresh" / f).read_bytes() for f in made(here / "fresh")} == {
        f: (here / "out" / f).read_bytes() for f in made(here / "out") if f != "manifest.json"
    }


def test_an_empty_folder(here, run):
    (here / "empty" / "deep").mkdir(parents=True)
    for command in (["check"], ["engrave"], ["notes"], ["sheet"]):
        result = run(*command, "empty")
        assert result.status == 2
        assert "empty: no .gesture file in this folder" in result.err
    answer = json.loads(run("check", "--json", "empty").out)
    assert answer["files"][0]["errors"][0]["code"] == "GS191"
    assert not (here / "out").exists()


@pytest.mark.parametrize("command", ["check", "suggest", "engrave", "notes", "sheet"])
def test_a_pipe_in_a_folder_is_not_waited_for(here, run, command):
    (here / "parts").mkdir()
    (here / "parts" / "a.gesture").write_text(GOOD)
    (here / "parts" / "b.gesture").symlink_to("/dev/zero")
    os.mkfifo(here / "parts" / "c.gesture")
    result = run(command, "parts", *([] if command in ("check", "suggest") else ["--as", "ly"]))
    assert result.status == 2
    for name in ("b", "c"):
        assert f"parts/{name}.gesture: not a regular file" in result.err
    assert "parts/a.gesture" in result.out or command == "sheet"


@pytest.mark.parametrize("command", ["check", "suggest", "engrave", "notes", "sheet"])
def test_a_link_out_of_a_folder_has_nothing_quoted(here, run, command):
    """The folder may be a stranger's; a link named directly is followed anywhere."""
    (here / "parts").mkdir()
    (here / "private").write_text("the password: 1234\n")
    (here / "parts" / "song.gesture").symlink_to("../private")
    (here / "parts" / "good.gesture").write_text(GOOD)
    (here / "parts" / "same.gesture").symlink_to("good.gesture")
    result = run(command, "parts", *([] if command in ("check", "suggest") else ["--as", "ly"]))
    assert result.status == 2
    assert "parts/song.gesture: a link that leads out of the folder" in result.err
    assert "password" not in result.out + result.err
    assert "password" in run("check", "parts/song.gesture").out


def test_forty_files_that_all_fail(here, run):
    tree(here, **{f"bad__{n:02}": WRONG for n in range(40)})
    result = run("engrave", "bad")
    assert result.status == 2
    assert result.out.count("cannot be read: call:") == 40
    total = result.out.rpartition("total: ")[2].splitlines()
    assert total == [
        "0 made, 0 unchanged, 0 refused, 40 failed",
        *(f"  failed: bad/{n:02}.gesture" for n in range(40)),
    ]
    assert not (here / "out").exists()


def test_two_of_the_same_name_in_different_folders(here, run):
    tree(here, one__study=GOOD, two__study=HIGH)
    assert run("engrave", "--as", "ily", ".").status == 1
    assert {"one/study/call.ily", "two/study/call.ily"} <= set(made(here / "out"))
    result = run("engrave", "--as", "ily", "-o", "flat", "one/study.gesture", "two/study.gesture")
    assert result.status == 2
    assert result.err.count("one/study.gesture and two/study.gesture would both be written to study") == 2
    assert not (here / "flat").exists()


def test_a_file_that_is_named_and_found_is_there_once(here, run):
    tree(here, parts__a=GOOD)
    result = run("check", "parts", "parts/a.gesture", "./parts")
    assert result.out.count("1 gesture: 1 playable") == 1
    assert "total" not in result.out


def test_check_counts(here, run, parts):
    result = run("check", "parts", "gone.gesture")
    assert result.status == 2
    assert result.out.endswith("total: 3 playable, 2 not as written, 2 with errors\n")
    answer = json.loads(run("check", "--json", "parts").out)
    assert len(answer["files"]) == 6


@pytest.mark.parametrize(
    ("name", "said"), [("a.gesture", "is one of the input files"), ("mine.json", "not made by")]
)
def test_a_manifest_goes_over_nothing_of_the_users(here, run, name, said):
    tree(here, a=GOOD)
    (here / "mine.json").write_text("{}")
    before = (here / name).read_text()
    result = run("engrave", "--as", "ily", "--manifest", name, "a.gesture")
    assert result.status == 2
    assert said in result.err
    assert (here / name).read_text() == before
    forced = run("engrave", "--as", "ily", "--force", "--manifest", name, "a.gesture")
    assert forced.status == (2 if name == "a.gesture" else 0)
    assert ((here / name).read_text() == before) == (name == "a.gesture")


@pytest.mark.parametrize(
    ("place", "said"),
    [
        ("parts", "parts is a folder"),
        ("", ". is a folder"),
        ("a.gesture/m.json", "a.gesture/m.json: a.gesture is a file, not a folder"),
        ("shut/deep/m.json", "shut/deep/m.json: permission denied"),
    ],
)
def test_an_impossible_manifest_is_said_before_any_work(here, run, place, said, monkeypatch):
    tree(here, a=GOOD, parts__b=GOOD)
    (here / "shut").mkdir()
    may = os.access  # root may write anywhere, so the folder is shut by hand
    monkeypatch.setattr(os, "access", lambda path, mode: Path(path) != Path("shut") and may(path, mode))
    result = run("engrave", "--as", "ily", "--manifest", place, "a.gesture")
    assert result.status == 2
    assert f"the manifest cannot be written: {said}" in result.err
    assert not (here / "out").exists()


def test_quiet_names_only_what_is_wrong(here, run, parts):
    result = run("engrave", "--as", "ily", "--quiet", "parts")
    assert result.err == "parts/horn/wrong.gesture has errors; nothing was engraved\n"
    assert result.out == (
        "total: 4 made, 0 unchanged, 1 refused, 1 failed; 1 written without their refused gestures\n"
        "  without refused gestures: parts/horn/b.gesture (beyond)\n"
        "  refused: parts/none.gesture\n"
        "  failed: parts/horn/wrong.gesture\n"
    )
    assert run("engrave", "--as", "ily", "-q", "parts/a.gesture").out == ""


def test_what_is_with_care_is_counted(here, run):
    """Loud pedal tones of a horn need care (GS101, memory); a draft has the refused gestures too."""
    care = f"{HEAD}\ngesture call\n  contour: C3\n  technique: flutter-tongue\n  dynamics: ppp\n"
    tree(here, parts__a=GOOD, parts__care=care, parts__high=HIGH)
    total = run("engrave", "--as", "ily", "-q", "parts").out.splitlines()[0]
    assert (
        total
        == "total: 3 made, 0 unchanged, 0 refused, 0 failed; 1 with care; 1 written without their refused gestures"
    )
    assert "without" not in run("engrave", "--as", "ily", "-q", "--draft", "parts").out


def test_an_interrupted_run_counts_what_is_whole(here, run, monkeypatch):
    tree(here, a=GOOD, b=GOOD, c=GOOD)
    deliver, calls = running.deliver, []

    def stopped(*arguments, **more):
        calls.append(1)
        if len(calls) == 3:
            raise KeyboardInterrupt
        return deliver(*arguments, **more)

    monkeypatch.setattr(running, "deliver", stopped)
    result = run("engrave", "--as", "ily", "a.gesture", "b.gesture", "c.gesture")
    assert result.status == 130
    assert "total: 2 made, 0 unchanged, 0 refused, 0 failed\n" in result.out
    assert "interrupted: 2 of 3 done, and what they made is whole; the next run makes the rest\n" in result.out
    assert {"a/call.ily", "b/call.ily"} <= set(made(here / "out"))


def test_a_manifest_goes_over_no_page(here, run):
    tree(here, a=GOOD)
    result = run("engrave", "--as", "ily", "--manifest", "out/a/call.ily", "a.gesture")
    assert result.status == 2
    assert "is one of the outputs" in result.err
    assert (here / "out" / "a" / "call.ily").read_text().startswith("%")


def test_somebody_elses_file_and_force(here, run):
    tree(here, a=GOOD)
    (here / "out" / "a").mkdir(parents=True)
    (here / "out" / "a" / "call.ily").write_text("my own")
    result = run("engrave", "--as", "ily", "a.gesture")
    assert result.status == 2
    assert "overwrite it with --force" in result.err
    assert made(here / "out") == ["a/call.ily"]
    assert run("engrave", "--as", "ily", "--force", "a.gesture").status == 0
    assert "gesture-call" in (here / "out" / "a" / "call.ily").read_text()


def test_names_for_delivery(here, run):
    text = 'title: "Fog Signals"\ncomposer: "A. Nobody"\n' + GOOD
    tree(here, a=text, b=text.replace("Fog", "Harbour"))
    result = run("engrave", "--as", "ily", "--name", "{composer}-{title}-{part}", "a.gesture", "b.gesture")
    assert result.status == 0
    assert {f.split("/")[0] for f in made(here / "out")} == {
        "A._Nobody-Fog_Signals-Horn_in_F",
        "A._Nobody-Harbour_Signals-Horn_in_F",
    }
    clash = run("engrave", "--as", "ily", "-o", "other", "--name", "{composer}", "a.gesture", "b.gesture")
    assert clash.status == 2
    assert "a.gesture and b.gesture would both be written to A._Nobody" in clash.err
    assert not (here / "other").exists()
    wrong = run("engrave", "--name", "{titel}", "a.gesture")
    assert wrong.status == 2
    assert "{title}" in wrong.err


@pytest.mark.parametrize("place", ["/proc/nowhere", "FILE"])
def test_a_cache_that_cannot_be_written(here, run, monkeypatch, place):
    """The work is done, and the problem is reported once."""
    tree(here, a=GOOD, b=GOOD, c=GOOD)
    (here / "file").write_text("in the way")
    monkeypatch.setenv("GESTURESMITH_CACHE", place.replace("FILE", str(here / "file")))
    for _ in range(2):
        result = run("engrave", "--as", "ily", "a.gesture", "b.gesture", "c.gesture")
        assert result.status == 0
        assert result.err.count("the cache cannot be written") == 1
    assert run("engrave", "--no-cache", "--as", "ily", "a.gesture").err == ""


def test_the_cache_shown_and_cleared(here, run, own_cache):
    tree(here, a=GOOD)
    run("engrave", "--as", "ily", "a.gesture")
    shown = run("cache")
    assert shown.status == 0
    assert re.fullmatch(rf"{own_cache}/results: [1-9]\d* results, \d\.\d MB of at most 500 MB\n", shown.out)
    assert run("cache", "--show").out == shown.out
    assert re.fullmatch(r"[1-9]\d* results removed\n", run("cache", "--clear").out)
    assert ": 0 results" in run("cache").out
    assert run("engrave", "--as", "ily", "a.gesture").status == 0


def test_no_cache_keeps_nothing(here, run):
    tree(here, a=GOOD)
    run("engrave", "--no-cache", "--as", "ily", "a.gesture")
    assert ": 0 results" in run("cache").out


@whole
@pytest.mark.lilypond
def test_two_runs_at_once_into_one_folder(here, parts):
    command = [sys.executable, "-m", "gesturesmith.cli.main", "engrave", "--as", "svg", "parts"]
    running = [
        subprocess.Popen(command, cwd=here, stdout=subprocess.PIPE, stderr=subprocess.PIPE) for _ in range(2)
    ]
    for process in running:
        out, err = timing.ended(process)
        assert process.returncode == 2
        assert b"total: " in out
        assert err == b"parts/horn/wrong.gesture has errors; nothing was engraved\n"
    alone = timing.run([*command, "-o", "alone", "--no-cache"], cwd=here)
    assert alone.returncode == 2
    assert {f: (here / "out" / f).read_bytes() for f in made(here / "out")} == {
        f: (here / "alone" / f).read_bytes() for f in made(here / "alone")
    }


def test_a_full_disk_in_the_middle(here, run, monkeypatch):
    """Files that did not fit are absent, and so are their folders; the next run completes them."""
    from gesturesmith import delivery

    tree(here, parts__a=GOOD, parts__b=GOOD, parts__deep__c=GOOD)
    write, written = delivery._write, []

    def full(path, data, mode):
        if len(written) >= 3:
            raise OSError(28, os.strerror(28))
        write(path, data, mode)
        written.append(path)

    with monkeypatch.context() as patch:
        patch.setattr(delivery, "_write", full)
        result = run("engrave", "--as", "ily", "parts")
    assert result.status == 3
    assert result.err.count("the disk is full") == 2
    assert made(here / "out") == ["a/call.ily", "a/gesturesmith.ily"]
    assert sorted(p.name for p in (here / "out").iterdir()) == ["a"]
    mended = run("engrave", "--as", "ily", "parts")
    assert mended.status == 0
    assert "total: 2 made, 1 unchanged, 0 refused, 0 failed" in mended.out


@pytest.mark.lilypond
def test_sheets_of_a_folder(here, run):
    """A file named directly must have an `exercises` block; files in a folder need not."""
    block = "\nexercises week\n  from: call\n  start: G4..Bb4 by 1\n  order: as listed\n  keep: all\n"
    tree(here, parts__a=GOOD, parts__horn__b=GOOD + block)
    result = run("sheet", "--as", "ly", "parts")
    assert (result.status, result.err) == (0, "")
    assert made(here / "out") == ["horn/b/week.ly"]
    alone = run("sheet", "parts/a.gesture")
    assert alone.status == 2
    assert "no `exercises` block" in alone.err
    tree(here, parts__none=GOOD, parts__high=GOOD + block.replace("G4..Bb4", "G6..A6"))
    counted = run("sheet", "--as", "ly", "parts")
    assert "total: 0 made, 1 unchanged, 1 refused, 0 failed\n" in counted.out


@whole
def test_a_cluster_that_is_not_there(here, program):
    tree(here, a=GOOD)
    done = program("engrave", "--cluster", "tcp://127.0.0.1:9", "a.gesture")
    assert done.returncode == 3
    assert b"tcp://127.0.0.1:9: No route to host" in done.stderr
    assert b"Traceback" not in done.stderr
    assert not (here / "out").exists()


def test_a_cluster_without_its_library(here, run, monkeypatch):
    from gesturesmith.cli import page_command

    tree(here, a=GOOD)
    monkeypatch.setattr(page_command.importlib.util, "find_spec", lambda name: None)
    result = run("engrave", "--cluster", "tcp://host:8786", "a.gesture")
    assert result.status == 2
    assert "pip install 'gesturesmith[cluster]'" in result.err


@pytest.mark.parametrize("name", ["con", "NUL", "com1"])
def test_nothing_made_is_called_as_a_device(here, run, name):
    """A file from another system may have such a name; Microsoft, "Naming Files, Paths, and Namespaces"."""
    (here / f"{name}.gesture").write_text(GOOD.replace("gesture call", f"gesture {name}"))
    assert run("engrave", "--as", "ly", f"{name}.gesture").status == 0
    assert sorted(str(p.relative_to(here / "out")) for p in (here / "out").rglob("*.ly")) == [
        f"{name}_.ly",
        f"{name}_/{name}_.ly",
    ]
