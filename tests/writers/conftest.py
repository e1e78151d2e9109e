"""One LilyPond run makes all pictures for the tests of writers."""

from __future__ import annotations

from pathlib import PurePosixPath

import pytest

from gesturesmith.lilypond import Job, LilyPond, find, start
from gesturesmith.writers import Item

HEAD = '\\version "2.24.0"\n'
PAGE = '\\book { \\bookOutputName "page" \\header { title = "Fog" tagline = ##f } \\score { { c\'1 } } }\n'
SWITCH = "#(ly:set-option 'crop #t)\n#(ly:set-option 'print-pages #f)\n"
SNIPPET = (
    '\\book {{ \\bookOutputName "{output}" '
    '\\markup \\column {{ \\bold "Swell" \\pad-around #0.8 \\score {{ {{ {music} }} }} }} }}\n'
)


def snippet(output: str, name: str, music: str, **changes: str) -> Item:
    book = SNIPPET.format(output=output, music=music)
    return Item(
        output=output,
        kind="snippet",
        place=PurePosixPath("study", name),
        name=name,
        book=book,
        document=f'{HEAD}\\include "gesturesmith.ily"\n{book}',
        ily=f'\\include "gesturesmith.ily"\n"gesture-{name}" = {{ {music} }}\n',
        **changes,
    )


@pytest.fixture(scope="session")
def items() -> tuple[Item, ...]:
    page = Item(
        output="page",
        kind="page",
        place=PurePosixPath("study"),
        name="study",
        title="Fog",
        excerpts=("beacon", "swell"),
        book=PAGE,
        document=f'{HEAD}\\include "gesturesmith.ily"\n{PAGE}',
    )
    title, description = "A <swell> & more", "C5 \x1b bent\x0b down; \"about\" a 'tone'"
    return (
        page,
        snippet("s1", "beacon", "c'1 d' e' f'"),
        snippet("s2", "swell", "<c' e'>1 f'", title=title, description=description),
    )


@pytest.fixture(scope="session")
def lilypond() -> LilyPond:
    found = find()
    assert isinstance(found, LilyPond)
    return found


@pytest.fixture(scope="session")
def runs(lilypond, items):
    """The same items twice: together in this order, and the last snippet in a separate run."""
    page, *snippets = items
    together = HEAD + page.book + SWITCH + "".join(s.book for s in snippets)
    alone = HEAD + SWITCH + items[-1].book
    made = []
    for document in (together, alone):
        with start(lilypond, ("pdf", "png", "svg")) as waiting:
            waiting.feed(Job(document=document))
            made.append(waiting.result())
    return made


@pytest.fixture(scope="session")
def postscript(lilypond, items):
    """A PDF made through PostScript, as by a LilyPond without cairo; twice."""
    made = []
    for _ in range(2):
        with start(lilypond, ("pdf",), backend="ps") as waiting:
            waiting.feed(Job(document=HEAD + items[0].book))
            made.append(waiting.result().file("page", "pdf"))
    return made
