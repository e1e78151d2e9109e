"""Notes pages as LilyPond sets them: one grid, nothing over the edge, nothing into anything else."""

from __future__ import annotations

import io
import re
from collections import defaultdict
from xml.etree import ElementTree

import pypdf
import pytest
from sheets.test_notes import FILE, HEAD

from gesturesmith.lilypond import Job, LilyPond, find, start
from gesturesmith.pipeline.notes import compile_notes
from gesturesmith.pipeline.types import NotesOptions
from gesturesmith.sheets import document
from gesturesmith.source import Source

pytestmark = pytest.mark.lilypond

# A text that would end a string, run Scheme, open a block, or comment out what follows; and one no line can hold.
HOSTILE = r"\"} #(ly:error \"ran\") \\markup { %{ $(exit) \\include \"x\""
PLAIN = '"} #(ly:error "ran") \\markup { %{ $(exit) \\include "x"'
ENDLESS = "https://example.org/" + "abcdefghij" * 12
BOOK = f"""{HEAD}title: "A title as long as this is more than what the head of a page has room for"
composer: "Composer {HOSTILE}"
{FILE}
gesture hostile "Title {HOSTILE}"
  contour: C5
  footnote: "Words {HOSTILE}"
gesture endless "Endless{"without" * 12}end"
  contour: C5
  footnote: "{ENDLESS}"
gesture wide
  technique: lip-gliss
  contour: C5 -- D5@1 -- E5@2 -- F5@3 -- G5@4 -- F5@5 -- E5@6 -- D5@7 -- C5@8 -- D5@9 -- C5
  lasts: 10 beats
  text: "from very far away, slowly coming nearer, and gone again before anybody has seen it"
  note: "Slowly."
"""
_MOVED = re.compile(r"translate\(([-\d.]+), ([-\d.]+)\)")
_SVG = "{http://www.w3.org/2000/svg}"
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
CASES = [(paper, columns) for paper in PAPERS for columns in (1, 2)]


def book(paper: str, columns: int, output: str, *languages: str) -> str:
    source = Source("a", BOOK.replace("title:", f"paper: {paper}\ntitle:", 1))
    options = NotesOptions(columns=columns, wording=languages, version="Version 2, May")
    outcome = compile_notes((source,), options)
    assert outcome.report.readable, outcome.report.errors
    return outcome.items[0].book.replace('\\bookOutputName "notes"', f'\\bookOutputName "{output}"')


@pytest.fixture(scope="module")
def lilypond() -> LilyPond:
    found = find()
    assert isinstance(found, LilyPond)
    return found


@pytest.fixture(scope="module")
def drawn(lilypond) -> dict[tuple[str, int], list[ElementTree.Element]]:
    """The pages of every case, as LilyPond's own SVG."""
    books = tuple(book(paper, columns, f"n{n}", "en", "de") for n, (paper, columns) in enumerate(CASES))
    with start(lilypond, ("svg",), backend="svg") as waiting:
        waiting.feed(Job(document=document(books)))
        run = waiting.result()
    assert run.messages == ()
    pages: dict[tuple[str, int], list[ElementTree.Element]] = defaultdict(list)
    for name in sorted(run.files):
        pages[CASES[int(name[1])]].append(ElementTree.fromstring(run.files[name].decode()))
    return pages


@pytest.fixture(scope="module")
def printed(lilypond) -> pypdf.PdfReader:
    with start(lilypond, ("pdf",)) as waiting:
        waiting.feed(Job(document=document((book("a4", 2, "notes", "en", "de"),))))
        run = waiting.result()
    assert run.messages == ()
    return pypdf.PdfReader(io.BytesIO(run.file("notes", "pdf")))


def texts(page: ElementTree.Element) -> list[tuple[float, float, str]]:
    """Left edge, baseline and letters of each text; the page's head and foot are left out."""
    height = float(page.get("viewBox", "").split()[3])
    found = []
    for text in page.iter(f"{_SVG}text"):
        match = _MOVED.match(text.get("transform", ""))
        said = "".join(text.itertext()).strip()
        if match and said:
            found.append((float(match[1]), float(match[2]), said))
    return [t for t in found if 0.09 * height < t[1] < 0.94 * height]


def test_there_are_pages_of_every_case(drawn):
    assert set(drawn) == set(CASES)
    assert all(len(pages) > 1 for pages in drawn.values())


@pytest.mark.parametrize("case", CASES)
def test_the_paper_is_as_asked(drawn, case):
    width, height = PAPERS[case[0]]
    for page in drawn[case]:
        assert float(page.get("width", "").removesuffix("mm")) == pytest.approx(width, abs=0.5)
        assert float(page.get("height", "").removesuffix("mm")) == pytest.approx(height, abs=0.5)


@pytest.mark.parametrize("case", CASES)
def test_names_of_a_row_stand_on_one_baseline(drawn, case):
    """All names, left and right, stand whole lines of text apart."""
    for page in drawn[case]:
        found = texts(page)
        numbered = sorted(y for _, y, said in found if re.fullmatch(r"\d+", said))
        if len(numbered) < 2:
            continue
        line = _line(found)
        for y in numbered[1:]:
            lines = (y - numbered[0]) / line
            assert lines == pytest.approx(round(lines), abs=0.03), (case, y)


def _line(found: list[tuple[float, float, str]]) -> float:
    """The commonest distance between baselines of neighbouring texts that begin at one place."""
    columns = defaultdict(set)
    for x, y, _ in found:
        columns[round(x, 1)].add(round(y, 3))
    gaps = defaultdict(int)
    for ys in columns.values():
        row = sorted(ys)
        for one, two in zip(row, row[1:], strict=False):
            gaps[round(two - one, 2)] += 1
    return max(gaps, key=lambda gap: (gaps[gap], gap))


@pytest.mark.parametrize("case", CASES)
def test_pages_are_counted_and_say_so(drawn, case):
    pages = drawn[case]
    for number, page in enumerate(pages, start=1):
        said = "".join("".join(t.itertext()) for t in page.iter(f"{_SVG}text")).replace(" ", "")
        assert f"page{number}of{len(pages)}/Seite{number}von{len(pages)}" in said
        assert "Version2,May" in said


def test_every_text_is_there_as_it_was_written(printed):
    text = "".join(p.extract_text() for p in printed.pages).replace(" ", "").replace("\n", "").replace("\u2002", "")
    plain = PLAIN.replace(" ", "")
    for said in (f"Composer{plain}", f"Title{plain}", f"Words{plain}", ENDLESS, "As a ship.".replace(" ", "")):
        assert said in text, said


def test_the_document_says_what_it_is(printed):
    assert printed.metadata.title.endswith(": Performance notes / Spielanweisungen")
