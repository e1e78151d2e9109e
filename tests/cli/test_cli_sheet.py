"""`sheet`: from a file and from a technique, its messages, and its refusals."""

from __future__ import annotations

import io

import pypdf
import pytest
from cli.conftest import HEAD, WRONG

pytestmark = pytest.mark.lilypond

EXERCISES = f"""{HEAD}
gesture call
  contour: C5, G5
  lasts: 2 beats

exercises week-one "Week one"
  from: call
  start: C5..C7 by 12
"""


@pytest.fixture
def file(here):
    path = here / "study.gesture"
    path.write_text(EXERCISES, "utf-8")
    return path


def pages(path) -> int:
    return len(pypdf.PdfReader(io.BytesIO(path.read_bytes())).pages)


def test_a_sheet_for_each_block_and_every_line_left_out_told(run, file, here) -> None:
    result = run("sheet", file.name)
    assert result.status == 0
    assert f"{file.name}: exercises week-one: 1 made, 2 left out" in result.out
    reasons = [line for line in result.out.splitlines() if line.startswith("    ")]
    assert [line.strip().partition(":")[0] for line in reasons] == ["from C6", "from C7"]
    assert all(line.endswith("(outside-range)") for line in reasons)
    assert pages(here / "out" / "study" / "week-one.pdf") == 1


def test_nothing_is_made_twice(run, file, here) -> None:
    assert run("sheet", file.name).status == 0
    before = (here / "out" / "study" / "week-one.pdf").stat().st_mtime_ns
    assert "unchanged: all 1 file" in run("sheet", file.name).out
    assert (here / "out" / "study" / "week-one.pdf").stat().st_mtime_ns == before


def test_the_same_bytes_every_time(run, file, here) -> None:
    run("sheet", file.name, "-o", "one", "--no-cache")
    run("sheet", file.name, "-o", "two", "--no-cache")
    one, two = ((here / d / "study" / "week-one.pdf").read_bytes() for d in ("one", "two"))
    assert one == two


def test_a_folder_is_mirrored_and_one_bad_file_does_not_stop_the_others(run, here) -> None:
    deep = here / "in" / "deep"
    deep.mkdir(parents=True)
    (deep / "study.gesture").write_text(EXERCISES, "utf-8")
    (here / "in" / "bad.gesture").write_text(WRONG, "utf-8")
    result = run("sheet", "in")
    assert result.status == 2
    assert "bad.gesture has errors; no sheet was made" in result.err
    assert (here / "out" / "deep" / "study" / "week-one.pdf").exists()


def test_source_of_a_sheet_stands_alone(run, file, here) -> None:
    assert run("sheet", file.name, "--as", "ly").status == 0
    text = (here / "out" / "study" / "week-one.ly").read_text("utf-8")
    assert r"\include" not in text
    assert "Week one" in text


def test_a_file_without_exercises(run, here) -> None:
    (here / "a.gesture").write_text(f"{HEAD}gesture a\n  contour: C5\n", "utf-8")
    result = run("sheet", "a.gesture")
    assert result.status == 2
    assert "no `exercises` block" in result.err


def test_nothing_playable_is_refused(run, here) -> None:
    (here / "a.gesture").write_text(EXERCISES.replace("C5..C7 by 12", "G7, A7"), "utf-8")
    result = run("sheet", "a.gesture")
    assert result.status == 1
    assert "0 made, 2 left out" in result.out
    assert not (here / "out").exists()


def test_levels_of_a_technique(run, here) -> None:
    result = run("sheet", "--technique", "kiss", "--instrument", "trumpet", "--level", "1..2", "--as", "ly")
    assert result.status == 0
    found = sorted(path.name for path in (here / "out").iterdir())
    assert found == ["trumpet-kiss-1.ly", "trumpet-kiss-2.ly"]


def test_a_name_of_ones_own(run, here) -> None:
    named = ("--name", "{part}", "--level", "1")
    result = run("sheet", "--technique", "kiss", "--instrument", "trumpet", *named)
    assert result.status == 0, result.err
    (made,) = (here / "out").iterdir()
    assert made.name == "Trumpet_in_Bb-kiss-1.pdf"
    assert pages(made) == 1


@pytest.mark.parametrize(
    ("technique", "instrument", "status", "words"),
    [
        ("slide-gliss", "horn", 1, "slide-gliss needs a slide; the double horn in F/B-flat has none"),
        ("half-valve", "natural-horn", 1, "half-valve needs valves"),
        ("timbre-trill", "natural-horn", 1, "of level 1, 2, 3, 4, 5; on C4: "),
        ("half-valv", "horn", 2, "unknown technique 'half-valv'; did you mean half-valve"),
        ("half-valve", "hornn", 2, "unknown instrument 'hornn'; did you mean horn"),
        ("half-valve", "none.toml", 2, "none.toml"),
    ],
)
def test_why_there_is_no_sheet(run, technique, instrument, status, words) -> None:
    result = run("sheet", "--technique", technique, "--instrument", instrument)
    assert result.status == status
    assert words in result.err


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ([], "give a file, or --technique and --instrument"),
        (["--technique", "kiss"], "give both --technique and --instrument"),
        (["--instrument", "horn"], "give both --technique and --instrument"),
        (["a.gesture", "--technique", "kiss", "--instrument", "horn"], "a file has its own"),
        (["--technique", "kiss", "--instrument", "horn", "--level", "6"], "6 is not a level"),
        (["--technique", "kiss", "--instrument", "horn", "--level", "3..1"], "3..1 is not a level"),
        (["--technique", "kiss", "--instrument", "horn", "--as", "svg"], "sheets have no such format"),
        (["--technique", "kiss", "--instrument", "horn", "--wording", "nl"], "`nl` is not a language"),
        (["--technique", "kiss", "--instrument", "horn", "--paper", "a3"], "`a3` is not a paper size"),
    ],
)
def test_misused(run, arguments, words) -> None:
    result = run("sheet", *arguments)
    assert result.status == 2
    assert words in result.err
