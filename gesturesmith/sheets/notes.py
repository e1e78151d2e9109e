"""Performance notes: what every sign and technique of a part asks of the player, in rows of picture and text."""

from __future__ import annotations

import re
from collections.abc import Iterator
from textwrap import shorten

from gesturesmith.backends.lilypond import EngravedMusic
from gesturesmith.lytext import LyText, code, joined, quoted
from gesturesmith.model.piece import Settings
from gesturesmith.sheets import _score
from gesturesmith.sheets._entries import (
    Choice,
    NotesEntry,
    NotesPart,
    Numbers,
    Section,
    choose,
    quarter_tones,
    said,
    techniques_of,
)
from gesturesmith.sheets._remarks import cautions, remarks, transposition
from gesturesmith.values import frozen
from gesturesmith.wording import said as both
from gesturesmith.wording import together

__all__ = [
    "Choice",
    "Front",
    "NotesEntry",
    "NotesPart",
    "Numbers",
    "book",
    "choose",
    "quarter_tones",
    "techniques_of",
]

_STAFF = {1: 0.8, 2: 0.66}  # by columns, relative to the parts' staff height: examples are smaller than the music
_RUNNING = 45  # letters of the title at the head of every page
_FIELD = re.compile(r"(\{pages?\})")


@frozen(kw_only=True)
class Front:
    """What a notes page has besides its rows.

    settings      paper and staff size
    title, subtitle   the pieces' names; "" for none
    instrument, composer   "" if the parts differ
    columns       1 | 2
    version       a line for the foot of each page, as given
    """

    settings: Settings
    subtitle: str = ""
    instrument: str = ""
    composer: str = ""
    columns: int = 2
    version: str = ""

    def title(self, languages: tuple[str, ...]) -> str:
        """The title of the document."""
        notes = both("heading-notes", languages)
        return f"{self.subtitle}: {notes}" if self.subtitle else notes


def book(
    choice: Choice,
    pictures: tuple[EngravedMusic, ...],
    parts: tuple[NotesPart, ...],
    front: Front,
    languages: tuple[str, ...],
    *,
    output: str,
) -> LyText:
    """A `\\book` called `output`. `pictures`: one for every entry of `choice`, in order."""
    waiting = iter(pictures)
    text = [_head(front, languages, output)]
    for title, paragraphs in (
        (said("heading-transposition", languages), transposition(parts, languages)),
        (said("heading-general", languages), remarks(parts, languages)),
    ):
        text += _paragraphs(title, paragraphs)
    text += _rows(choice.sections, waiting, front.columns)
    warned = tuple(_paragraphs(said("heading-cautions", languages), cautions(parts, languages)))
    if warned and choice.sections:
        # Cautions are never alone on a page: what does not fit there takes the last row along.
        text[-1] = joined((text[-1], *warned), "\n\\noPageBreak\n")
    else:
        text += warned
    # The last page is found from the last item.
    return joined((*text[:-1], code("\\label #'gs-end"), text[-1], code("}\n")))


def _head(front: Front, languages: tuple[str, ...], output: str) -> LyText:
    settings = front.settings
    width, height = (float(mm) for mm in settings.paper_mm)
    title = both("heading-notes", languages)
    fields = {
        "title": title,
        "subtitle": front.subtitle,
        "running": shorten(front.subtitle, _RUNNING, placeholder=" …"),
        "composer": front.composer,
        "instrument": front.instrument,
        "version": front.version,
    }
    lines = [_score.field(name, value) for name, value in fields.items() if value]
    lines.append(f"  pageOf = \\markup \\gs-page-of #'({_page_of(languages)})")
    lines.append(f"  {_score.header(front.title(languages), front.composer)}")
    return code(
        f"""\\gsPages #'()
\\book {{
\\header {{
{chr(10).join(lines)}
}}
\\paper {{ \\gsNotesPaper
  paper-width = {width:g}\\mm paper-height = {height:g}\\mm
  {_score.staff_size(settings, _STAFF[front.columns])}
  gs-columns = #{front.columns}
}}
\\bookOutputName "{output}"
"""
    )


def _page_of(languages: tuple[str, ...]) -> LyText:
    """`"page " page " of " pages`: the texts, with symbols for their fields."""
    parts = [p for p in _FIELD.split(both("page-of", languages)) if p]
    return code(" ".join(p.strip("{}") if _FIELD.fullmatch(p) else quoted(p) for p in parts))


def _section(title: tuple[str, ...]) -> LyText:
    # A heading is never alone at the foot of a page.
    return code(f"\\markup \\gs-notes-section {quoted(together(title))}\n\\noPageBreak")


def _paragraphs(title: tuple[str, ...], paragraphs: tuple[tuple[str, ...], ...]) -> Iterator[LyText]:
    """A heading with its paragraphs, which are short enough to stay together."""
    if paragraphs:
        yield _section(title)
        said_so = (code(f"\\markup \\gs-notes-paragraph {{ {_strings(texts)} }}") for texts in paragraphs)
        yield joined(said_so, "\n\\noPageBreak\n")


def _rows(sections: tuple[Section, ...], pictures: Iterator[EngravedMusic], columns: int) -> Iterator[LyText]:
    """The entries of all sections, row by row; the heading of a section is above its first entry, so that a section
    of one entry leaves no row half empty."""
    cells = [
        (section.title if n == 0 else (), entry) for section in sections for n, entry in enumerate(section.entries)
    ]
    for at in range(0, len(cells), columns):
        row = cells[at : at + columns]
        headings = " ".join(f"({_strings((together(title),)) if title else ''})" for title, _ in row)
        inside = joined(_picture_and_text(entry, next(pictures)) for _, entry in row)
        yield code(f"\\markup \\gs-row #'({headings}) {{\n{inside}\n}}")


def _picture_and_text(entry: NotesEntry, engraving: EngravedMusic) -> LyText:
    music = engraving.music
    heading = f"{quoted(entry.number)} {quoted(together(entry.names))}"
    return code(
        f"""{_score.place_mark(music)}
\\score {{
{_score.staff(music, entry.settings, engraving.unmarked)}
{_score.layout(music, "NotesPicture")}
}}
\\gs-entry {heading} {{ {_strings(entry.texts)} }}"""
    )


def _strings(texts: tuple[str, ...]) -> LyText:
    return joined((quoted(t) for t in texts), " ")
