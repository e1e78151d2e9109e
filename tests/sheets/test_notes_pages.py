"""Notes pages as engraved by LilyPond: one grid, nothing over the edge, no collisions."""

from __future__ import annotations

import io
import re
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import inf
from pathlib import Path
from xml.etree import ElementTree

import pypdf
import pytest
from sheets.test_notes import FILE, HEAD

from gesturesmith.lilypond import Job, LilyPond, find, start
from gesturesmith.model.looks import PageLook
from gesturesmith.paths import templates
from gesturesmith.pipeline.notes import compile_notes
from gesturesmith.pipeline.types import NotesOptions
from gesturesmith.sheets import document
from gesturesmith.source import Source

pytestmark = pytest.mark.lilypond

# A text that would end a string, run Scheme, open a block or comment out the rest; and one too long for a line.
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
_SCALED = re.compile(r"scale\(([-\d.]+)")
BESIDE = 2.5  # from a picture to its text, staff spaces; as in the template
_SVG = "{http://www.w3.org/2000/svg}"
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
CASES = [(paper, columns) for paper in PAPERS for columns in (1, 2)]


def book(paper: str, columns: int, output: str, *languages: str) -> str:
    source = Source("a", BOOK.replace("title:", f"paper: {paper}\ntitle:", 1))
    options = NotesOptions(columns=columns, look=PageLook(wording=", ".join(languages)), version="Version 2, May")
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


@dataclass(frozen=True)
class Text:
    """Left edge, baseline and letters, in the page's units."""

    x: float
    y: float
    said: str


@dataclass(frozen=True)
class Picture:
    """The middle line of a staff: its left end, its right end, its height."""

    left: float
    right: float
    y: float


def placed(page: ElementTree.Element, tag: str) -> Iterator[tuple[float, float, float, ElementTree.Element]]:
    """All elements of a kind with place and scale."""

    def inside(element, x, y, scale):
        moved = _MOVED.search(element.get("transform", ""))
        scaled = _SCALED.search(element.get("transform", ""))
        if moved:
            x, y = x + scale * float(moved[1]), y + scale * float(moved[2])
        scale *= float(scaled[1]) if scaled else 1
        for child in element:
            if child.tag == f"{_SVG}{tag}":
                yield x, y, scale, child
            yield from inside(child, x, y, scale)

    yield from inside(page, 0.0, 0.0, 1.0)


def texts(page: ElementTree.Element) -> list[Text]:
    found = (Text(x, y, "".join(t.itertext()).strip()) for x, y, _, t in placed(page, "text"))
    return [t for t in found if t.said]


def pictures(page: ElementTree.Element) -> list[Picture]:
    """Staves of three or five lines, identified by their middle lines; rules under headings are as wide as the
    page."""
    widest = 0.6 * float(page.get("viewBox", "").split()[2])
    rows = defaultdict(list)
    for x, y, scale, line in placed(page, "line"):
        ends = sorted((x + scale * float(line.get("x1")), x + scale * float(line.get("x2"))))
        flat = line.get("y1") == line.get("y2")
        if flat and 20 < ends[1] - ends[0] < widest:
            rows[tuple(round(end, 1) for end in ends)].append(y)
    found = []
    for (left, right), heights in rows.items():
        group: list[float] = []
        for y in [*sorted(heights), inf]:
            if group and y - group[-1] > 2.5:
                if len(group) > 1:  # else the rule under the heading of a column
                    found.append(Picture(left, right, group[len(group) // 2]))
                group = []
            group.append(y)
    return found


def entries(page: ElementTree.Element) -> list[Text]:
    """Everything at the left edge of the texts beside pictures: the first word of every line, or a number in a
    circle, whose digits are a little further in."""
    rows = pictures(page)
    top = min((p.y for p in rows), default=inf) - 9  # above the first row there may be paragraphs
    edges = [p.right + BESIDE for p in rows]
    return [t for t in texts(page) if t.y > top and any(-0.15 < t.x - edge < _further(t) for edge in edges)]


def _further(text: Text) -> float:
    return 1.2 if text.said.isdigit() else 0.15


def line_of(columns: int) -> float:
    """The distance between lines of text, in staff spaces, as in the template."""
    (measures,) = re.findall(r"gs:notes-measures '(.*)\)", (templates() / "notes.ily").read_text("utf-8"))
    return float(re.search(rf"\({columns} \. \(([\d.]+)", measures)[1])


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
def test_all_lines_beside_pictures_stand_on_one_grid(drawn, case):
    line = line_of(case[1])
    pages = [page for page in drawn[case] if len(pictures(page)) > 1]
    assert pages
    for page in pages:
        found = entries(page)
        assert len(found) > 5
        rows = pictures(page)
        for one in (*found, *rows):
            lines = (one.y - rows[0].y) / line
            assert lines == pytest.approx(round(lines), abs=0.02), one


@pytest.mark.parametrize("case", CASES)
def test_no_line_stands_in_another(drawn, case):
    line = line_of(case[1])
    for page in drawn[case]:
        for x in {round(t.x, 0) for t in entries(page)}:
            heights = sorted(t.y for t in entries(page) if round(t.x, 0) == x)
            assert all(two - one > 0.98 * line for one, two in pairwise(heights)), x


@pytest.mark.parametrize("case", CASES)
def test_pictures_are_equally_wide_and_stand_in_their_columns(drawn, case):
    found = [p for page in drawn[case] for p in pictures(page)]
    assert len(found) > 10
    assert len({round(p.left, 0) for p in found}) == case[1]
    widths = [p.right - p.left for p in found]
    assert max(widths) - min(widths) < 0.5


@pytest.mark.parametrize("case", CASES)
def test_every_row_has_its_picture(drawn, case):
    """A number is in the row whose staff is a line or two lower, to its left."""
    numbered = 0
    for page in drawn[case]:
        line = line_of(case[1])
        for name in entries(page):
            if name.said.isdigit():
                numbered += 1
                beside = [p for p in pictures(page) if abs(p.right + BESIDE - name.x) < 1]
                assert any(0 < p.y - name.y < 4 * line for p in beside), name
    assert numbered == 11


def test_cautions_are_never_alone_on_a_page(drawn):
    """With them are the last entries, however few."""
    for case, pages in drawn.items():
        for page in pages:
            assert pictures(page), case


def test_two_columns_take_no_more_pages_than_one(drawn):
    for paper in PAPERS:
        assert len(drawn[paper, 2]) <= len(drawn[paper, 1])


@pytest.mark.parametrize(("languages", "most"), [(("en",), 2), (("en", "de"), 3)])
def test_a_piece_of_fifteen_gestures_has_few_pages(lilypond, languages, most):
    """The demo: fifteen gestures and three passages with nineteen numbered entries and fifteen signs."""
    demo = Path(__file__).parents[2] / "docs" / "demo" / "fog-signals.gesture"
    options = NotesOptions(look=PageLook(wording=", ".join(languages)), folders=(demo.parent,))
    made = compile_notes((Source("a", demo.read_text("utf-8")),), options)
    with start(lilypond, ("pdf",)) as waiting:
        waiting.feed(Job(document=document((made.items[0].book,))))
        run = waiting.result()
    assert len(pypdf.PdfReader(io.BytesIO(run.file("notes", "pdf"))).pages) <= most


@pytest.mark.parametrize("case", CASES)
def test_pages_are_counted_and_say_so(drawn, case):
    pages = drawn[case]
    for number, page in enumerate(pages, start=1):
        said = "".join(t.said for t in texts(page)).replace(" ", "")
        assert f"page{number}of{len(pages)}/Seite{number}von{len(pages)}" in said
        assert "Version2,May" in said


def test_every_text_is_there_as_it_was_written(printed):
    text = "".join(p.extract_text() for p in printed.pages).replace(" ", "").replace("\n", "").replace("\u2002", "")
    plain = PLAIN.replace(" ", "")
    for said in (f"Composer{plain}", f"Title{plain}", f"Words{plain}", ENDLESS, "As a ship.".replace(" ", "")):
        assert said in text, said


def test_a_word_that_no_line_can_hold_is_broken(drawn):
    for pages in drawn.values():
        pieces = [t.said for page in pages for t in texts(page) if "abcdefghij" in t.said]
        assert len(pieces) > 1
        assert all(len(piece) < 100 for piece in pieces)


def test_the_document_says_what_it_is(printed):
    assert printed.metadata.title.endswith(": Performance notes / Spielanweisungen")


def test_postscript_finds_all_its_fonts(lilypond):
    """LilyPonds without the cairo backend use PostScript, which takes fonts only from the paper."""
    with start(lilypond, ("pdf",), backend="ps") as waiting:
        waiting.feed(Job(document=document((book("letter", 2, "notes"),))))
        run = waiting.result()
    assert run.messages == ()
    assert run.file("notes", "pdf")
