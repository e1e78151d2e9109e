"""Exit statuses of the language page."""

from __future__ import annotations

import json

import pytest
from cli.conftest import DEMO, GOOD, HEAD, HIGH, REFUSED_DEMO, WRONG

from gesturesmith import writers
from gesturesmith.cli.main import main
from gesturesmith.cli.status import Status, worst


def test_the_order_is_2_3_1_0():
    assert worst() == 0
    assert worst(Status.GOOD, Status.REFUSED) == 1
    assert worst(Status.REFUSED, Status.MACHINE, Status.GOOD) == 3
    assert worst(Status.MACHINE, Status.INPUT, Status.REFUSED) == 2


@pytest.mark.parametrize(("text", "status"), [(GOOD, 0), (HIGH, 1), (WRONG, 2)])
@pytest.mark.parametrize("flags", [[], ["--json"]])
def test_check(here, run, text, status, flags):
    (here / "a.gesture").write_text(text)
    assert run("check", *flags, "a.gesture").status == status


def test_check_of_many_gives_the_gravest(here, run):
    for name, text in (("good", GOOD), ("high", HIGH), ("wrong", WRONG)):
        (here / f"{name}.gesture").write_text(text)
    assert run("check", "good.gesture", "high.gesture").status == 1
    result = run("check", "high.gesture", "wrong.gesture", "gone.gesture", "good.gesture")
    assert result.status == 2
    assert "high.gesture" in result.out
    assert "conture" in result.out
    assert "gone.gesture" in result.err


def test_the_demos(run):
    assert run("check", DEMO).status == 0
    assert run("check", REFUSED_DEMO).status == 1


@pytest.mark.parametrize(
    "arguments",
    [
        ["check"],
        ["nonsense"],
        ["check", "--nonsense", "a.gesture"],
        ["engrave"],
        ["engrave", "--as", "gif", "a.gesture"],
        ["engrave", "--as", ",", "a.gesture"],
        ["engrave", "--pitches", "loud", "a.gesture"],
        ["explain"],
        ["explain", "nonsense"],
        ["list", "everything"],
        ["new"],
        ["format"],
        [],
    ],
)
def test_a_misused_command(here, run, arguments):
    (here / "a.gesture").write_text(GOOD)
    result = run(*arguments)
    assert result.status == 2
    assert result.err
    assert not (here / "out").exists()


def test_a_misused_command_is_told_what_there_is(run):
    assert f"choose from {', '.join(writers.names())}" in run("engrave", "--as", "gif", "a.gesture").err
    assert "did you mean half-valve" in run("explain", "half-valv").err


def test_json_has_every_file_in_order(here, run):
    (here / "good.gesture").write_text(GOOD)
    (here / "bad.gesture").write_bytes(b"instrument: horn\n\xff")
    result = run("check", "--json", "bad.gesture", "good.gesture", "gone.gesture")
    assert result.status == 2
    answer = json.loads(result.out)
    assert answer["schema"] == 2
    assert [(f["file"], f["readable"]) for f in answer["files"]] == [
        ("bad.gesture", False),
        ("good.gesture", True),
        ("gone.gesture", False),
    ]
    (error,) = answer["files"][0]["errors"]
    assert (error["rule"], error["line"], error["column"]) == ("not-utf-8", 2, 1)
    assert answer["files"][1]["gestures"][0]["verdict"] == "playable"


@pytest.mark.parametrize("what", ["techniques", "instruments", "rules"])
def test_lists(run, what):
    as_text, as_json = run("list", what), run("list", what, "--json")
    assert as_text.status == as_json.status == 0
    rows = json.loads(as_json.out)[what]
    assert len(rows) == len(as_text.out.splitlines()) > 0
    for row, line in zip(rows, as_text.out.splitlines(), strict=True):
        assert all(value in line for value in row.values())


@pytest.mark.parametrize(
    ("name", "holds"),
    [("half-valve", "half-valve"), ("GS501", "GS501"), ("STOPPED", "stopped"), ("difficulty", "breath")],
)
def test_explain(run, name, holds):
    result = run("explain", name)
    assert result.status == 0
    assert holds in result.out
    assert len(result.out.splitlines()) > 3


def test_a_fault_of_ours_is_no_verdict(here, run, monkeypatch):
    """Python's own exit status, 1, would mean "not as written"."""
    from gesturesmith import pipeline

    def faulty(*_, **__):
        raise KeyError("a fault of ours")

    monkeypatch.setattr(pipeline, "compile_text", faulty)
    (here / "a.gesture").write_text(GOOD)
    result = run("check", "a.gesture")
    assert result.status == 3
    assert "KeyError in test_cli_status.py" in result.err
    assert "--version --verbose" in result.err
    monkeypatch.setenv("GESTURESMITH_TRACEBACK", "1")
    assert main(["check", "a.gesture"]) == 3


FAULTY = f"{HEAD}\ngesture faulty\n  contour: G4\n"
MAKING = ["engrave", "--as", "ly", "--manifest", "m.json"]


@pytest.fixture
def three(here, monkeypatch):
    """Three files, the second of which triggers a bug of ours when compiled."""
    from gesturesmith import pipeline
    from gesturesmith.lang import format as formatting
    from gesturesmith.pipeline import notes, text

    for name, content in (("a", GOOD), ("b", FAULTY), ("c", HIGH)):
        (here / f"{name}.gesture").write_text(content)

    def faulty(work):
        def worked(first, *rest, **more):
            source = first[0] if isinstance(first, tuple) else first
            if "faulty" in source.text:
                raise KeyError("a fault of ours")
            return work(first, *rest, **more)

        return worked

    for module, name in (
        (pipeline, "compile_text"), (pipeline, "compile_file"), (notes, "compile_notes"), (text, "compile_text"),
        (formatting, "format_text"),
    ):  # fmt: skip
        monkeypatch.setattr(module, name, faulty(getattr(module, name)))
    monkeypatch.setattr("gesturesmith.lang.format_text", formatting.format_text)
    return here


@pytest.mark.parametrize(
    "command",
    [["check"], ["suggest"], ["suggest", "--apply"], MAKING, ["notes", "--as", "ly"], ["format", "--check"]],
    ids=" ".join,
)
def test_a_fault_of_ours_is_one_files_alone(three, run, command):
    """It is reported with the file's name; the other files are processed and reported."""
    result = run(*command, "a.gesture", "b.gesture", "c.gesture")
    assert result.status == 3
    assert "b.gesture: this is a bug in Gesturesmith, not in your file" in result.err
    assert "KeyError in test_cli_status.py" in result.err
    assert result.err.count("--version --verbose") == 1
    assert "outside-range" in result.out or command[0] == "format" or "--apply" in command
    made = {p.name for p in three.rglob("*.ly")} | {p.name for p in three.glob("*-suggested.gesture")}
    wanted = {"engrave": {"a.ly", "call.ly", "c.ly"}, "notes": {"a-notes.ly", "c-notes.ly"}}
    assert made == ({"c-suggested.gesture"} if "--apply" in command else wanted.get(command[0], set()))
    if command == MAKING:
        assert "total: 2 made, 0 unchanged, 0 refused, 1 failed" in result.out
        (b,) = [s for s in json.loads((three / "m.json").read_text())["sources"] if s["file"] == "b.gesture"]
        assert b["failed"] == ["a bug in Gesturesmith: KeyError"]


@pytest.mark.parametrize("command", ["check", "suggest"])
def test_json_is_whole_where_a_file_meets_a_fault_of_ours(three, run, command):
    result = run(command, "--json", "a.gesture", "b.gesture", "c.gesture")
    assert result.status == 3
    assert [f["file"] for f in json.loads(result.out)["files"]] == ["a.gesture", "c.gesture"]
    assert "b.gesture: this is a bug" in result.err


def test_a_fault_in_a_thread_is_no_verdict(here, run, monkeypatch):
    from gesturesmith.batch import render, workers

    def faulty(task, runner):
        raise KeyError("a fault of ours")

    monkeypatch.setattr(render, "render", faulty)
    monkeypatch.setattr(workers, "_MAX_WEIGHT", 1)
    for name in ("a", "b"):
        (here / f"{name}.gesture").write_text(GOOD)
    result = run("engrave", "a.gesture", "b.gesture")
    assert result.status == 3
    for name in ("a", "b"):
        assert f"{name}.gesture: this is a bug in Gesturesmith" in result.err
    assert not (here / "out").exists()


def test_python_without_docstrings_is_told_what_is_missing(here, program):
    (here / "a.gesture").write_text(GOOD)
    for arguments in (["check", "a.gesture"], ["--help"], ["engrave", "a.gesture"]):
        done = program(*arguments, env={"PYTHONOPTIMIZE": "2"})
        assert (done.returncode, done.stdout) == (2, b"")
        assert b"PYTHONOPTIMIZE=2" in done.stderr
        assert b"Traceback" not in done.stderr
    assert program("check", "a.gesture", env={"PYTHONOPTIMIZE": "1"}).returncode == 0
