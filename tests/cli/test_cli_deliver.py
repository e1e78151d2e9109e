"""`deliver`: what a delivery file asks for, what is kept from one delivery to the next, and what is said of it."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pypdf
import pytest
from cli.conftest import HEAD, WRONG
from sampling import whole

HORN = f"""{HEAD}title: "Low Cloud"
part: "Horn in F"
gesture ash "Ash"
  technique: growl
  contour: C5
  note: "Hold back."
gesture fern "Fern"
  technique: half-valve
  contour: xC5
"""
TUBA = HORN.replace("instrument: horn", "instrument: tuba").replace("Horn in F", "Tuba").split("gesture fern")[0]
TUBA = TUBA.replace("C5", "C3")
APART = 'delivery = 1\nformats = ["ly"]\nprint = "apart"\n'


@pytest.fixture
def files(here) -> Path:
    (here / "brass").mkdir()
    (here / "brass" / "horn.gesture").write_text(HORN, "utf-8")
    (here / "brass" / "tuba.gesture").write_text(TUBA, "utf-8")
    return here


def asked(folder: Path, text: str, name: str = "set.toml") -> None:
    (folder / name).write_text(text, "utf-8")


def made(folder: Path) -> set[str]:
    return {str(p.relative_to(folder)) for p in folder.rglob("*") if p.is_file()}


def marks(path: Path) -> list[str]:
    book = path.read_text("utf-8").split("\\book {")[-1]
    return re.findall(r'\\gsMark "([^"]*)"', book)


def test_works_papers_and_languages_have_folders(files, run):
    asked(
        files,
        f'{APART}papers = ["a4", "letter"]\nlanguages = ["de", "en, fr"]\n'
        '[[works]]\nwork = "low"\nfiles = ["brass"]\nnotes = "one"\n'
        '[[works]]\nwork = "horn"\nfiles = ["brass/horn.gesture"]\nnotes = "none"\npapers = ["230 x 310 mm"]\n',
    )
    result = run("deliver", "set.toml")
    assert (result.status, result.err) == (0, "")
    low = {f"{paper}/{language}/low/{name}.ly" for paper in ("a4", "letter") for language in ("de", "en-fr")
           for name in ("horn", "tuba", "performance-notes")}  # fmt: skip
    assert made(files / "out" / "set") == low | {"de/horn/horn.ly", "en-fr/horn/horn.ly"}
    text = (files / "out/set/letter/en-fr/low/performance-notes.ly").read_text("utf-8")
    assert "paper-width = 215.9\\mm" in text
    assert "Performance notes / Notes d’exécution" in text
    assert "paper-width = 230\\mm paper-height = 310\\mm" in (files / "out/set/de/horn/horn.ly").read_text("utf-8")
    # Findings are told once for each file, not once for each paper.
    assert result.out.count("brass/tuba.gesture: 1 gesture") == 1
    again = run("deliver", "set.toml", "-q")
    # The composer's notes are in English only.
    missing = [f"brass/{part}.gesture: no text in German and French: ash (note)" for part in ("horn", "tuba")]
    assert again.out.splitlines() == ["total: 0 made, 14 unchanged, 0 refused, 0 failed", *missing]


ALL = '[[works]]\nfiles = ["brass"]\n'
# What follows `delivery = 1`, and what is said of it.
MISTAKES = (
    (f'papers = ["a3"]\n{ALL}', "line 2: papers: `a3` is not a paper size"),
    (f'languages = ["nl"]\n{ALL}', "line 2: languages: `nl` is not a language"),
    (f"{ALL}colums = 1", "line 4: works.colums: unknown key (allowed: columns"),
    ("[[works]]\nfiles = []", "line 3: works.files: this is a list of texts"),
    ('[[works]]\nwork = "a"', "line 2: works.files: this is missing"),
    ('[[works]]\nfiles = ["brass", "brass"]', "line 3: works.files: something stands here twice"),
    (f'{ALL}formats = ["pfd"]', "line 4: works.formats: unknown format pfd (allowed: pdf"),
    (f'name = "{{titel}}"\n{ALL}', "line 2: name: unknown field titel"),
    (f'formats = ["ly"]\nprint = "together"\n{ALL}', "line 3: print: only PDFs are bound together"),
    (f"{ALL}{ALL}", "line 2: works.work: this is missing"),
    (f'{ALL}work = "a"\n{ALL}work = "A"', "line 7: works.work: another work is called a too"),
    (f'{ALL}work = "a/b"', "line 4: works.work: this is the name of a folder too"),
    ('[[works]]\nfiles = ["brss"]', "brss: no such file"),
    (f'{ALL}parts = ["horn-1"]', "no file has a part horn-1"),
    ("", "works: this is missing"),
    ("[[works]\n", "line 2: not valid TOML"),
)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        *((f"delivery = 1\n{text}", said) for text, said in MISTAKES),
        (f"delivery = 2\n{ALL}", "line 1: delivery: out of range"),
        ('title = "x"\n', "not a delivery file: one begins with delivery = 1"),
    ],
)
def test_mistakes_are_told_with_their_line_before_any_work(files, run, text, said):
    asked(files, text)
    result = run("deliver", "set.toml")
    assert result.status == 2
    assert f"set.toml: {said}" in result.err
    assert not (files / "out").exists()
    assert not (files / "set.delivered.toml").exists()


def test_all_mistakes_at_once(files, run):
    asked(files, 'delivery = 1\ncolumns = 3\nnotes = "some"\n[[works]]\nfiles = 1\n')
    assert run("deliver", "set.toml").err.count("set.toml: line") == 3


def test_mixed_papers_of_one_notes_page_are_told_before_any_work(files, run):
    (files / "brass" / "horn.gesture").write_text(f"paper: letter\n{HORN}", "utf-8")
    asked(files, f'{APART}notes = "one"\n[[works]]\nfiles = ["brass"]\n')
    result = run("deliver", "set.toml")
    assert result.status == 2
    assert (
        "one notes page has one paper, not several (brass/horn.gesture letter, brass/tuba.gesture a4)" in result.err
    )
    assert not (files / "out").exists()


def test_a_mistake_in_the_record_is_told_before_any_work(files, run):
    asked(files, f'{APART}[[works]]\nfiles = ["brass"]\n')
    for text, said in (
        ("delivered = 1\n<<<<<<< HEAD\n", "line 2: not valid TOML"),
        ('delivered = 1\n[techniques."a"]\n"growl" = 1\n"rip" = 1\n', "a: growl and rip have the same number 1"),
        ('delivered = 1\n[gestures."a"]\n"x: ash" = "one"\n', "gestures.a.x: ash: out of range"),
    ):
        (files / "set.delivered.toml").write_text(text, "utf-8")
        result = run("deliver", "set.toml")
        assert result.status == 2
        assert said in result.err
        assert (files / "set.delivered.toml").read_text("utf-8") == text
        assert not (files / "out").exists()


def test_numbers_stay_and_changes_are_listed(files, run):
    """A gesture renamed, one new, one changed, a file gone, and a new technique before the old ones."""
    text = f'{APART}title = "Set"\n[[works]]\nwork = "low"\nfiles = ["brass"]\nnotes = "one"\n'
    asked(files, f'version = "First"\n{text}')
    assert "changes since" not in run("deliver", "set.toml").out
    first = tomllib.loads((files / "set.delivered.toml").read_text("utf-8"))
    assert first["techniques"]["low"] == {"half-valve": 1, "growl": 2}
    assert first["gestures"]["low"] == {"brass/horn.gesture: ash": 3, "brass/tuba.gesture: ash": 3}
    assert marks(files / "out/set/horn.ly") == ["2, 3", "1"]
    changed = HORN.replace('gesture ash "Ash"', 'gesture elm "Elm"').replace("contour: xC5", "contour: xD5")
    (files / "brass" / "horn.gesture").write_text(
        f'{changed}gesture kelp\n  technique: scoop\n  contour: C5\n  footnote: "Late."\n# a remark\n', "utf-8"
    )
    (files / "brass" / "tuba.gesture").unlink()
    asked(files, f'version = "Second"\n{text}')
    second = run("deliver", "set.toml")
    expected = (
        "Set (Second)\nchanges since First:\n"
        "  brass/horn.gesture:\n    changed: gesture fern\n    new: gesture kelp\n"
        "    renamed: gesture ash is now elm\n  brass/tuba.gesture: gone\n  unchanged: 0 files\n"
        "  new notes in low: 4 scoop, 5 brass/horn.gesture: kelp\n"
    )
    assert expected in second.out
    assert (files / "out/set/changes.txt").read_text("utf-8").partition("\n")[2] == expected
    assert marks(files / "out/set/horn.ly") == ["2, 3", "1", "5"]
    # The same delivery made again has the same list; another file keeps its numbers in the record.
    third = run("deliver", "set.toml")
    assert expected in third.out
    kept = tomllib.loads((files / "set.delivered.toml").read_text("utf-8"))
    assert kept["techniques"]["low"] == {"half-valve": 1, "growl": 2, "scoop": 4}
    assert kept["gestures"]["low"] == {
        "brass/horn.gesture: elm": 3, "brass/tuba.gesture: ash": 3, "brass/horn.gesture: kelp": 5,
    }  # fmt: skip


def test_spaces_and_remarks_are_no_changes(files, run):
    asked(files, f'{APART}[[works]]\nfiles = ["brass"]\n')
    run("deliver", "set.toml")
    (files / "brass" / "horn.gesture").write_text(
        HORN.replace("  ", "    ").replace("C5\n", "C5  # high\n", 1), "utf-8"
    )
    assert "changes since" not in run("deliver", "set.toml").out
    for old, new in (("Hold back.", "Hold  # back."), ('"Ash"', '"Ashes"')):
        (files / "brass" / "horn.gesture").write_text(HORN.replace(old, new), "utf-8")
        assert "changed: gesture ash" in run("deliver", "set.toml").out


def test_stale_files_are_named_and_moved_on_request(files, run):
    """Of a file that is gone, one with a mistake, one refused, one renamed; an edited one is never moved."""
    (files / "brass" / "wrong.gesture").write_text(HORN, "utf-8")
    asked(
        files, 'delivery = 1\nprint = "apart"\npictures = true\nformats = ["ily"]\n[[works]]\nfiles = ["brass"]\n'
    )
    assert run("deliver", "set.toml").status == 0
    out = files / "out" / "set"
    before = made(out)
    assert {"horn/ash.ily", "horn/fern.ily", "tuba/ash.ily", "wrong/ash.ily", "wrong/fern.ily"} <= before
    (files / "brass" / "tuba.gesture").unlink()
    (files / "brass" / "wrong.gesture").write_text(WRONG, "utf-8")
    (files / "brass" / "horn.gesture").write_text(
        HORN.replace("gesture fern", "gesture yew").replace("contour: C5\n", "contour: G6\n", 1), "utf-8"
    )
    (out / "wrong" / "fern.ily").write_text("mine", "utf-8")
    told = run("deliver", "set.toml").out
    assert "stale, from earlier deliveries (7; --set-aside moves them to stale):" in told
    for name, why in (
        ("horn/ash.ily", "ash is refused now"),
        ("horn/fern.ily", "renamed or removed"),
        ("tuba/ash.ily", "brass/tuba.gesture is not in this delivery"),
        ("wrong/ash.ily", "brass/wrong.gesture has a mistake in line 5"),
    ):
        assert f"  out/set/{name}: {why}" in told
    assert before <= made(out)
    moved = run("deliver", "set.toml", "--set-aside")
    assert "out/set/wrong/fern.ily was edited since it was made, and was left where it is" in moved.err
    assert {f"stale/{n}" for n in ("horn/ash.ily", "horn/fern.ily", "tuba/ash.ily", "wrong/ash.ily")} <= made(out)
    assert not (out / "tuba").exists()
    assert (out / "wrong" / "fern.ily").read_text("utf-8") == "mine"
    assert run("deliver", "set.toml").out.count("out/set/wrong/fern.ily") == 1  # still named


def test_numbers_of_an_interrupted_delivery_are_kept(files, run, monkeypatch):
    from gesturesmith.batch import running

    asked(files, f'{APART}[[works]]\nfiles = ["brass"]\n')
    deliver, calls = running.deliver, []

    def stopped(*arguments, **more):
        calls.append(1)
        if len(calls) == 2:
            raise KeyboardInterrupt
        return deliver(*arguments, **more)

    monkeypatch.setattr(running, "deliver", stopped)
    result = run("deliver", "set.toml")
    assert result.status == 130
    assert "interrupted: 1 of 2 done" in result.out
    kept = tomllib.loads((files / "set.delivered.toml").read_text("utf-8"))
    assert kept["techniques"] == {"brass/horn.gesture": {"half-valve": 1, "growl": 2}}
    assert kept["files"].keys() == {"horn.ly", "horn-notes.ly"}


@pytest.mark.lilypond
def test_notes_and_part_are_one_pdf_of_even_pages(files, run):
    """The notes come first; the part begins on a right-hand page, and the whole fills whole sheets of paper."""
    asked(files, 'delivery = 1\nlanguages = ["de"]\n[[works]]\nfiles = ["brass"]\nnotes = "one"\n')
    assert run("deliver", "set.toml").status == 0
    out = files / "out" / "set"
    assert made(out) == {"horn.pdf", "tuba.pdf"}
    for name, head in (("horn", "Horn in F"), ("tuba", "Tuba")):
        reader = pypdf.PdfReader(out / f"{name}.pdf")
        texts = [page.extract_text() for page in reader.pages]
        assert len(texts) == 4
        assert "Spielanweisungen" in texts[0]
        assert [text.strip() == "" for text in texts] == [False, True, False, True]
        assert head in texts[2]
        assert reader.metadata is not None
        assert reader.metadata.title == "Low Cloud"
        assert len({tuple(page.mediabox) for page in reader.pages}) == 1
    before = {name: (out / name).read_bytes() for name in made(out)}
    assert "total: 0 made, 2 unchanged" in run("deliver", "set.toml").out
    assert run("deliver", "set.toml", "--no-cache", "-o", "fresh").status == 0
    assert {name: (files / "fresh" / name).read_bytes() for name in made(files / "fresh")} == before


@whole
@pytest.mark.lilypond
def test_parts_of_one_file_are_chosen_and_sheets_made(here, run):
    text = (
        'title: "Duo"\npitches: written\npart horn-1 "Horn 1"\n  instrument: horn\npart horn-2 "Horn 2"\n'
        "  instrument: horn\ngesture ash\n  technique: growl\n  contour: C5\n"
        "passage all\n  horn-1: ash\n  horn-2: ash\n"
        "exercises week\n  from: ash\n  start: G4..Bb4 by 1\n"
    )
    (here / "duo.gesture").write_text(text, "utf-8")
    asked(here, 'delivery = 1\nexercises = true\n[[works]]\nfiles = ["duo.gesture"]\nparts = ["horn-2", "score"]\n')
    assert run("deliver", "set.toml").status == 0
    assert made(here / "out" / "set") == {
        "duo.pdf", "duo/horn-2.pdf", "duo/horn-1/week.pdf", "duo/horn-2/week.pdf",
    }  # fmt: skip
