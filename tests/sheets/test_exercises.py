"""Exercise sheets: their content, in order, and that LilyPond engraves them without a message."""

from __future__ import annotations

import io
import re
import unicodedata
from fractions import Fraction
from pathlib import Path
from types import SimpleNamespace

import pypdf
import pytest
from golden.printed import misread, scores
from golden.programs import PROGRAMS
from reading import dump
from sampling import sample

from gesturesmith import instruments, sheets
from gesturesmith.exercises.preparation import Preparation
from gesturesmith.lilypond import Job, LilyPond, find, start
from gesturesmith.model.piece import Settings
from gesturesmith.pipeline import sheet
from gesturesmith.pipeline.graded import GradedOptions, compile_graded
from gesturesmith.pipeline.sheet import SheetOptions, compile_sheet
from gesturesmith.sheets import exercises
from gesturesmith.source import Source
from gesturesmith.units import Spelling

pytestmark = pytest.mark.lilypond

HOSTILE = r"\"} #(ly:error \"ran\") \\markup { %{ $(exit) \\include \"x\" \\gsRest"
PLAIN = '"} #(ly:error "ran") \\markup { %{ $(exit) \\include "x" \\gsRest'
HEAD = "instrument: horn\npitches: written\ntempo: 60\n"
FILE = f"""{HEAD}title: "File {HOSTILE}"
composer: "Composer {HOSTILE}"
part: "Part {HOSTILE}"

gesture slide
  technique: half-valve
  contour: xG4 ~~ xD5
  lasts: 4 beats
gesture sweep
  technique: harmonic-gliss
  contour: G4 ~~ G5
  lasts: 2 beats
  note: "Note {HOSTILE}"
gesture heights
  technique: split-attack
  band: middle
  contour: high, low
gesture timed
  contour: C5 -- D5@1
  technique: lip-gliss
  lasts: 3 s
gesture turning
  technique: growl
  contour: C5 -- D5@2 as flutter-tongue
  lasts: 4 beats

exercises plain "Plain {HOSTILE}"
  from: slide
  start: G4..C5 by 1
  instruction: "Instruction {HOSTILE}"
exercises ladder
  from: sweep
  start: G4, C5
  times: 3
  tempo: 60, 72
exercises registers
  from: heights
  band: low, high
  dynamics: p, f
exercises free
  from: timed
  lasts: 3, 2 s
exercises two
  from: turning
  lasts: 4, 8 beats
  meter: 3/4
"""


def text_of(pdf: bytes) -> str:
    pages = pypdf.PdfReader(io.BytesIO(pdf)).pages
    return re.sub(r"\s+", " ", unicodedata.normalize("NFKC", " ".join(p.extract_text() for p in pages)))


@pytest.fixture(scope="module")
def lilypond() -> LilyPond:
    found = find()
    assert isinstance(found, LilyPond)
    return found


@pytest.fixture(scope="module")
def outcome():
    made = compile_sheet((Source("a", FILE),), SheetOptions(stem="a"))
    assert made.report.readable, made.report.errors
    return made


@pytest.fixture(scope="module")
def books(outcome):
    return {item.name: item.book for item in outcome.items}


@pytest.fixture(scope="module")
def run(outcome, lilypond):
    with start(lilypond, ("pdf",)) as waiting:
        waiting.feed(Job(document=sheets.document(tuple(item.book for item in outcome.items))))
        return waiting.result()


def test_lilypond_sets_every_sheet_without_a_warning(run, outcome) -> None:
    assert run.messages == ()
    assert run.ended == ""
    assert all(run.file(item.output, "pdf") for item in outcome.items)


def test_a_sheet_for_each_block_below_the_file(outcome) -> None:
    names = ["plain", "ladder", "registers", "free", "two"]
    assert [str(item.place) for item in outcome.items] == [f"a/{name}" for name in names]
    assert list(outcome.names) == names


def test_every_text_is_on_the_page_as_it_was_written(run) -> None:
    text = "".join(text_of(pdf) for name, pdf in run.files.items() if name.endswith(".pdf")).replace(" ", "")
    for word in ("File", "Composer", "Part", "Plain", "Instruction", "Note"):
        assert f"{word}{PLAIN}".replace(" ", "") in text, word


def test_lines_are_numbered_and_each_has_its_rest(books, outcome) -> None:
    for item in outcome.items:
        count = len(item.excerpts)
        numbers = re.findall(r'\\gs-number "(\d+)\."', books[item.name])
        assert numbers == [str(n) for n in range(1, count + 1)]
        assert books[item.name].count(r"\gsRest ") == count


def test_tempo_stands_where_it_changes(books) -> None:
    lines = books["ladder"].split(r"\gs-number")[1:]
    # `tempo: 60, 72` changes fastest: G4 at both tempi, then C5.
    assert [re.findall(r'\\gsTempo "" "(\d+)"', line) for line in lines] == [["60"], ["72"], ["60"], ["72"]]


def test_a_preparation_stands_where_it_is_a_new_one(books) -> None:
    lines = [r"\gsPreparation" in line for line in books["ladder"].split(r"\score")[2:]]
    assert lines == [True, False, True, False]
    assert r"\gsPreparation" not in books["registers"]
    assert books["plain"].count(r'\gsPrepared "Preparation"') == 1


def test_each_line_is_repeated_as_often_as_asked(books) -> None:
    assert books["ladder"].count(r"\repeat volta 3") == 4
    assert r"\repeat" not in books["plain"]


def test_one_text_needs_no_marks_and_several_are_marked_once(books) -> None:
    assert r"\gsMark" not in books["plain"]
    assert books["two"].count(r"\gsMark") == 2
    assert books["two"].count(r"\gs-note ") == 2


def test_cautions_stand_at_the_head_and_defer_to_player_and_teacher(books) -> None:
    for book in books.values():
        before = book[: book.index(r"\score")]
        assert "You and your teacher decide" in before
    assert "Growling strains the throat" in books["two"][: books["two"].index(r"\score")]


def test_a_warm_up_first_and_room_for_remarks_last(books) -> None:
    for book in books.values():
        assert book.index('"Warm-up"') < book.index(r"\gs-number")
        assert book.rindex(r"\gs-ruled") > book.rindex(r"\gsRest")
        # The space for remarks takes the last line along to another page.
        assert book.rindex(r"\noPageBreak") > book.rindex(r"\gsRest")


def test_seconds_have_no_meter(books) -> None:
    lines = books["free"].split(r"\gs-number")[1:]
    assert all(r"\cadenzaOn" in line and r"\time" not in line for line in lines)
    assert r"\gsTempo" not in "".join(lines)  # nothing is counted in beats


def test_one_page_is_filled_and_not_overfilled(lilypond) -> None:
    text = HEAD + (
        "gesture a\n  technique: half-valve\n  contour: xG4 ~~ xD5\n  lasts: 4 beats\n"
        "exercises many\n  from: a\n  start: C4..C5 by 1\n  dynamics: p, mf\n  order: easiest first\n"
        "  keep: one page\n"
    )
    (item,) = compile_sheet((Source("a", text),), SheetOptions(lilypond=lilypond)).items
    assert 5 <= len(item.excerpts) <= 12
    every = text.replace("one page", str(len(item.excerpts) + 1))
    (more,) = compile_sheet((Source("a", every),), SheetOptions()).items
    with start(lilypond, ("pdf",)) as waiting:
        waiting.feed(Job(document=sheets.document((item.book, more.book.replace(more.output, "more")))))
        run = waiting.result()
    pages = [len(pypdf.PdfReader(io.BytesIO(run.file(name, "pdf"))).pages) for name in (item.output, "more")]
    assert pages == [1, 2]


def test_no_page_of_a_long_sheet_has_one_line(lilypond) -> None:
    """Each line ends with its rest, so the rests of a page are its lines."""
    text = HEAD + (
        "gesture a\n  technique: half-valve\n  contour: xG4 ~~ xD5\n  lasts: 4 beats\n"
        "exercises many\n  from: a\n  start: C4..C5 by 1\n  dynamics: p, mf\n  order: easiest first\n"
        "  keep: {}\n"
    )
    books = []
    for lines in range(6, 15):
        (item,) = compile_sheet((Source("a", text.format(lines)),), SheetOptions()).items
        books.append(item.book.replace(item.output, f"of{lines}"))
    with start(lilypond, ("pdf",)) as waiting:
        waiting.feed(Job(document=sheets.document(tuple(books))))
        run = waiting.result()
    several = 0
    for lines in range(6, 15):
        pages = pypdf.PdfReader(io.BytesIO(run.file(f"of{lines}", "pdf"))).pages
        rests = [len(re.findall(r"rest\s+\d+\s+s", page.extract_text())) for page in pages]
        assert sum(rests) == lines
        assert min(rests) > 1, (lines, rests)
        several += len(pages) > 1
    assert several > 5


@pytest.mark.parametrize("stays", [False, True])
@pytest.mark.parametrize("room", range(12))
def test_the_most_lines_that_fit_are_found_in_a_few_tries(room: int, stays: bool, monkeypatch) -> None:
    """A try is a start of LilyPond, which takes longer than a page, unless one stays; then each page counts."""
    tries: list[set[int]] = []

    def tried(sheets, settings, lilypond) -> dict[int, bool]:
        tries.append({*sheets})
        return {lines: lines <= room for lines in sheets}

    monkeypatch.setattr(sheet, "_on_one_page", tried)
    settings = Settings(instrument=instruments.get("horn"), pitches="written")
    for most in range(1, 12):
        tries.clear()
        pool = SimpleNamespace(stays=stays)
        assert sheet.fitting(lambda lines: lines, most, settings, pool) == max(1, min(room, most))
        assert len(tries) <= (7 if stays else 4)
        assert not stays or all(len(some) == 1 for some in tries)
        assert sum(map(len, tries)) == len(set().union(*tries))


def test_what_cannot_be_played_is_not_on_the_sheet_and_told() -> None:
    text = HEAD + "gesture a\n  contour: C5, G5\nexercises b\n  from: a\n  start: C5, G7\n"
    outcome = compile_sheet((Source("a", text),), SheetOptions())
    (said,) = outcome.report.exercises
    assert said.made == len(outcome.items[0].excerpts) == 1
    ((label, reason),) = said.left_out
    assert label == "from G7"
    assert "outside-range" in reason
    assert "outside-range" not in outcome.items[0].book


def test_a_block_without_a_playable_line_makes_no_sheet() -> None:
    text = HEAD + "gesture a\n  contour: C5\nexercises b\n  from: a\n  start: G7, A7\n"
    outcome = compile_sheet((Source("a", text),), SheetOptions())
    assert outcome.items == ()
    assert outcome.report.exercises[0].made == 0


def test_the_small_notes_are_spelled_as_they_are() -> None:
    prepared = Preparation(notes=(Spelling("B", Fraction(-1), 3), Spelling("F", Fraction(1), 5)), tube="Bb 0")
    text = exercises._preparation(prepared, "")
    assert text == r"""\gsPreparation { bf16 \gsFingering "Bb 0" fs''16 }"""


ALTERED = """gesture flat
  technique: stopped
  contour: Eb4, F4, G4, Ab4
gesture sharp
  technique: stopped
  contour: C#4, D4, F#4, D4
exercises flats
  from: flat
  start: Eb4, Bb4
exercises sharps
  from: sharp
  start: C#4, F#4
"""


@pytest.mark.parametrize("program", sample(PROGRAMS, 2), ids=str)
def test_a_line_after_a_preparation_prints_its_own_accidentals(program: Path, tmp_path: Path) -> None:
    outcome = compile_sheet((Source("a", HEAD + ALTERED),), SheetOptions())
    for item in outcome.items:
        found = scores(sheets.document((item.book,)), tmp_path / item.name, program)
        lines = found[1:]  # after the warm-up
        assert len(lines) == len(item.excerpts)
        # The small notes are a measure of their own, though it is not counted.
        assert [len(measure) for measure in lines[0] if measure] == [4, 4]
        assert [head.alter for head in lines[0][0]] == [head.alter for head in lines[0][1]]
        assert any(head.alter for head in lines[0][1])
        assert [misread(line) for line in found] == [[] for _ in found]


@pytest.mark.parametrize("program", sample(PROGRAMS, 2), ids=str)
@pytest.mark.parametrize(
    "lines", ["scoop\n  contour: C5", *(f"lip-gliss\n  contour: C5{n * ' -- E5 -- C5'}" for n in (1, 2))]
)
def test_what_is_prepared_is_named_before_its_bar_line(program: Path, lines: str, tmp_path: Path) -> None:
    """Otherwise the word would seem to refer to the music, or run into the first word there."""
    text = f"{HEAD}wording: en, de\ngesture one\n  technique: {lines}\n  lasts: 8 beats\nexercises a\n  from: one\n"
    (item,) = compile_sheet((Source("a", text),), SheetOptions()).items
    found = [g for score in dump.read(sheets.document((item.book,)), tmp_path, program).values() for g in score]
    (word,) = [g for g in found if g.name == "TextScript" and g.text.startswith("Preparation")]
    (line,) = [g for g in found if g.name == "BarLine" and g.more["glyph"] == "!"]
    assert word.right < line.x, (word, line)


@pytest.mark.parametrize(("language", "paper"), sample([("en", ("210", "297")), ("de", ("215.9", "279.4"))], 2))
def test_a_graded_sheet_is_one_page(language: str, paper: tuple[str, str], lilypond) -> None:
    settings = Settings(
        instrument=instruments.get("trombone"),
        pitches="written",
        wording=(language,),
        paper_mm=(Fraction(paper[0]), Fraction(paper[1])),
    )
    options = GradedOptions(technique="slide-gliss", settings=settings, levels=(1, 5), lilypond=lilypond)
    outcome = compile_graded((), options)
    assert outcome.names == ("trombone-slide-gliss-1", "trombone-slide-gliss-5")
    with start(lilypond, ("pdf",)) as waiting:
        waiting.feed(Job(document=sheets.document(tuple(i.book for i in outcome.items))))
        run = waiting.result()
    assert run.messages == ()
    for item, word in zip(
        outcome.items, {"en": ("Level 1", "Level 5"), "de": ("Stufe 1", "Stufe 5")}[language], strict=True
    ):
        pdf = run.file(item.output, "pdf")
        assert len(pypdf.PdfReader(io.BytesIO(pdf)).pages) == 1
        assert word in text_of(pdf)
