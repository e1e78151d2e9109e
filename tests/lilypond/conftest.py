"""Most of these tests share one LilyPond run."""

from __future__ import annotations

import pytest

from gesturesmith.lilypond import Job, LilyPond, find, start

# Two books: a page, then a cropped picture, as the page settings switch between them.
DOCUMENT = r"""\version "2.24.0"
\book { \bookOutputName "page" \header { tagline = ##f } \score { { c'1 } } }
#(ly:set-option 'crop #t)
#(ly:set-option 'print-pages #f)
% gesture beacon
\book { \bookOutputName "s0001" \markup \pad-around #0.8 \score { { c'1 } } }
"""


@pytest.fixture(scope="session")
def wheel() -> LilyPond:
    found = find()
    assert isinstance(found, LilyPond)
    return found


@pytest.fixture(scope="session")
def document() -> str:
    return DOCUMENT


@pytest.fixture(scope="session")
def run(wheel):
    with start(wheel, ("pdf", "png", "svg")) as waiting:
        waiting.feed(Job(document=DOCUMENT))
        return waiting.result()
