"""`notes` and `engrave --notes`: which pages are made, where, and the messages."""

from __future__ import annotations

import re
from pathlib import Path

import pypdf
import pytest
from cli.conftest import HEAD, WRONG

pytestmark = pytest.mark.lilypond

ONE = f"""{HEAD}title: "One"
gesture a "Call"
  technique: growl
  contour: C5
gesture b
  technique: half-valve + growl
  contour: xC5
"""
TWO = f"""{HEAD}title: "Two"
accidentals: arrows
wording: de
gesture a "Call"
  technique: scoop
  contour: C^5
  footnote: "As a gull."
"""


@pytest.fixture
def files(here) -> Path:
    (here / "in" / "deep").mkdir(parents=True)
    (here / "in" / "one.gesture").write_text(ONE, "utf-8")
    (here / "in" / "deep" / "two.gesture").write_text(TWO, "utf-8")
    return here


def made(folder: Path, ending: str = "pdf") -> set[str]:
    return {str(p.relative_to(folder)) for p in folder.rglob(f"*.{ending}")}


def words(path: Path) -> str:
    text = " ".join(page.extract_text() for page in pypdf.PdfReader(path).pages)
    return re.sub(r"\s+", " ", text)


def marks(path: Path) -> list[str]:
    book = path.read_text("utf-8").split("\\book {")[-1]  # the templates' own comments precede it
    return re.findall(r'\\gsMark "([^"]*)"', book)


def test_a_page_for_each_file_in_the_folders_they_are_in(files, run):
    result = run("notes", "in")
    assert result.status == 0
    assert made(files / "out") == {"one-notes.pdf", "deep/two-notes.pdf"}
    assert "Performance notes" in words(files / "out" / "one-notes.pdf")
    assert "Spielanweisungen" in words(files / "out" / "deep" / "two-notes.pdf")
    assert "total: 2 made" in result.out
    again = run("notes", "in")
    assert "total: 0 made, 2 unchanged" in again.out


def test_one_document_with_a_foot_in_two_languages(files, run):
    foot = ("--version-line", "Second version", "--date", "May")
    result = run("notes", "in", "--one-document", "--wording", "en,de", "--columns", "1", *foot)
    assert result.status == 0
    assert made(files / "out") == {"performance-notes.pdf"}
    text = words(files / "out" / "performance-notes.pdf")
    for said in ("Performance notes / Spielanweisungen", "Second version, May", "page 1 of", "Growl", "As a gull."):
        assert said in text


def test_engrave_takes_the_options_of_notes_and_looks_alike(files, run):
    """Parts and notes in the language and on the paper asked for, whatever their files say."""
    look = ("--wording", "fr", "--paper", "letter", "--columns", "1", "--version-line", "Proof", "--date", "May")
    result = run("engrave", "in", "--notes", *look)
    assert result.status == 0
    sizes = {
        path.name: pypdf.PdfReader(path).pages[0].mediabox[2:]
        for path in (*(files / "out").glob("one*.pdf"), *(files / "out" / "deep").glob("two*.pdf"))
    }
    assert sizes.keys() == {"one.pdf", "one-notes.pdf", "two.pdf", "two-notes.pdf"}
    for size in sizes.values():
        assert [*map(float, size)] == pytest.approx([8.5 * 72, 11 * 72], abs=1)  # inches
    for name in ("one-notes.pdf", "deep/two-notes.pdf"):
        assert "Notes d’exécution" in (said := words(files / "out" / name))
        assert "Proof, May" in said
    assert "Cor en fa" in words(files / "out" / "one.pdf")
    assert "Cor en fa" in words(files / "out" / "deep" / "two.pdf")


@pytest.mark.parametrize("option", ["--one-document", "--columns=1", "--version-line=x", "--date=x"])
def test_options_of_notes_need_notes(files, run, option):
    result = run("engrave", "in", option)
    assert result.status == 2
    assert f"{option.partition('=')[0]} is about notes pages: add --notes" in result.err
    assert not (files / "out").exists()


def test_one_document_has_one_paper(files, run):
    """Said before any work; `--paper` settles it."""
    (files / "in" / "one.gesture").write_text(f"paper: letter\n{ONE}", "utf-8")
    for command in (("notes", "in", "--one-document"), ("engrave", "in", "--notes", "--one-document")):
        result = run(*command)
        assert result.status == 2
        assert "one document has one paper: in/one.gesture has letter, in/deep/two.gesture a4" in result.err
        assert "--paper" in result.err
        assert not (files / "out").exists()
    assert run("notes", "in", "--one-document", "--paper", "a4", "--as", "ly").status == 0


def test_no_date_of_its_own(files, run):
    run("notes", "in/one.gesture")
    assert not re.search(r"\b20\d\d\b", words(files / "out" / "one-notes.pdf"))


def test_files_that_differ_are_named(files, run):
    (files / "in" / "three.gesture").write_text(TWO.replace("arrows", "stein").replace("gull", "crow"), "utf-8")
    for arguments in (("notes", "in"), ("notes", "--one-document", "in"), ("notes", "in")):
        out = run(*arguments).out
        assert re.search(r"quarter-tone accidentals: \S*three.gesture: stein; \S*two.gesture: arrows", out)
        assert "“As a crow.”" in out
    assert "not used in the same way" not in run("notes", "in/one.gesture").out


def test_parts_are_numbered_as_their_notes_are(files, run):
    result = run("engrave", "in", "--notes", "--as", "pdf,ly")
    assert result.status == 0
    assert {"one.pdf", "one-notes.pdf", "deep/two.pdf", "deep/two-notes.pdf"} <= made(files / "out")
    assert marks(files / "out" / "one.ly") == ["2", "1, 2"]
    assert "As a gull." not in (files / "out" / "deep" / "two.ly").read_text("utf-8")
    assert "As a gull." in words(files / "out" / "deep" / "two-notes.pdf")
    numbers = dict(re.findall(r'gs-entry "(\d+)" "(\w+)', (files / "out" / "one-notes.ly").read_text("utf-8")))
    assert numbers == {"1": "Half", "2": "Growl"}


def test_parts_are_numbered_by_one_document_and_again_when_another_file_changes(files, run):
    run("engrave", "in", "--notes", "--one-document", "--as", "ly")
    out = files / "out"
    assert made(out, "ly") >= {"performance-notes.ly", "one.ly", "deep/two.ly"}
    first = {name: marks(out / name) for name in ("one.ly", "deep/two.ly")}
    # Files in a folder come before those in its subfolders.
    assert first == {"one.ly": ["3", "2, 3"], "deep/two.ly": ["4"]}
    (files / "in" / "one.gesture").write_text(ONE.replace("half-valve + ", ""), "utf-8")
    run("engrave", "in", "--notes", "--one-document", "--as", "ly")
    assert marks(out / "deep" / "two.ly") == ["3"]


def test_one_bad_file_does_not_stop_the_others(files, run):
    (files / "in" / "bad.gesture").write_text(WRONG, "utf-8")
    for more in ((), ("--one-document",)):
        result = run("notes", "in", *more)
        assert result.status == 2
        assert "conture" in result.out
    assert made(files / "out") == {"one-notes.pdf", "deep/two-notes.pdf", "performance-notes.pdf"}


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--as", "svg"), "notes cannot be made as svg (choose from ly, pdf): what its signs mean is text"),
        (("--wording", "nl"), "`nl` is not a language of the page texts: write `en`, `de`, `fr` or `it`"),
        (("--wording", "en,de,fr"), "`wording` takes one language, or two with a comma"),
        (("--wording", " "), "`wording` has no value"),
        (("--paper", "a3"), "`a3` is not a paper size: write `a4` or `letter`, or width and height"),
        (("--paper", "a4\ntitle: x"), "this is more than one line"),
        (("--columns", "3"), "3 is not in the range"),
    ],
)
def test_misuse_is_told(files, run, arguments, said):
    result = run("notes", "in", *arguments)
    assert result.status == 2
    assert said in result.err
    assert not (files / "out").exists()


def test_names_for_delivery(files, run):
    run("notes", "in/one.gesture", "--name", "{title}-{part}")
    assert made(files / "out") == {"One-Horn_in_F-notes.pdf"}


def test_missing_translations_are_named_once_a_run(files, run):
    (files / "in" / "one.gesture").write_text(
        f'{ONE}gesture c\n  contour: C5\n  note: "Slow."\n  text: "far"\n  text.de: "fern"\n', "utf-8"
    )
    for command in (("notes",), ("engrave", "--notes")):
        out = run(*command, "in", "--as", "ly", "--wording", "de, fr").out
        assert "in/one.gesture: no text in German: c (note)\n" in out
        assert "in/one.gesture: no text in French: c (text, note)\n" in out
        assert "in/deep/two.gesture: no text in French: a (footnote)\n" in out
    assert "no text" not in run("notes", "in/one.gesture", "--as", "ly").out
