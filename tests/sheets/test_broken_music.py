"""Texts that depend on where systems and pages end, read back from the PDF."""

from __future__ import annotations

import io
import re
import unicodedata
from collections import Counter

import pypdf
import pytest

from gesturesmith.lilypond import Job, LilyPond, find, start
from gesturesmith.lytext import code
from gesturesmith.sheets import document
from gesturesmith.sheets import page as sheet
from gesturesmith.sheets._footnotes import _lines

pytestmark = pytest.mark.lilypond

WORDS = r"""\version "2.24.0"
\include "gesturesmith.ily"
\paper { indent = 0 tagline = ##f print-page-number = ##f }
\book { \bookOutputName "words" \score { {
  c'4 \gsSay #'(("flz." "flz." "")) d' \gsSay #'(("flz." "flz." "") ("growl" "growl" "gr."))
  e' \gsSay #'(("growl" "growl" "gr.")) f' \gsSay #'(("ord." "ord." "ord.")) \break
  c' \gsSay #'(("flz." "flz." "") ("growl" "growl" "gr.")) d' \gsSay #'(("growl" "growl" "gr.")) e' f' \break
  c' \gsWord "lazily" d' \gsSay #'(("flz." "" "")) e' \gsSay #'(("flz." "flz." "")) f'
} } }
"""

PIECE = """
instrument: horn
pitches: written
paper: 150 x 130 mm
staff: 5
{gestures}
"""
TECHNIQUES = ("growl", "half-valve", "flutter-tongue", "growl", "air", "growl", "half-valve", "vibrato")


def pages(pdf: bytes) -> list[str]:
    texts = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages]
    return [unicodedata.normalize("NFKC", text) for text in texts]


@pytest.fixture(scope="module")
def run(engraved):
    lilypond = find()
    assert isinstance(lilypond, LilyPond)
    gestures = "".join(
        f"gesture zz{a}{b}\n  technique: {technique}\n  contour: {'x' if technique == 'half-valve' else ''}C5\n"
        for a in "pqrs"
        for b, technique in zip("abcdefgh", TECHNIQUES, strict=True)
    )
    musics = engraved(PIECE.format(gestures=gestures))
    settings = musics.pop("")
    page = sheet.book(tuple(musics.values()), settings, output="page")
    numbered = tuple(m.noted({f.number: "77" for f in m.music.footnotes}) for m in musics.values())
    again = sheet.book(numbered, settings, output="noted")
    with start(lilypond, ("pdf",)) as waiting:
        waiting.feed(Job(document=code(f"{document((page, again))}\n{WORDS}")))
        return waiting.result(), musics


def test_no_warning(run):
    made, _ = run
    assert made.messages == ()


def test_a_word_is_said_first_on_each_system(run):
    """First and again after a break; its sign, or nothing, if the word is already on the system."""
    made, _ = run
    (text,) = pages(made.file("words", "pdf"))
    said = Counter(re.findall(r"flz\.|growl|gr\.|ord\.|lazily", text))
    assert said == {"flz.": 2, "growl": 2, "gr.": 2, "ord.": 1, "lazily": 1}


def test_each_page_counts_its_own_footnotes(run):
    """Numbers start from 1 on each page, and a text is once at the foot of each page that marks it."""
    made, musics = run
    texts = {f.text for m in musics.values() for f in m.music.footnotes}
    starts = {text[:18] for text in texts}
    found = pages(made.file("page", "pdf"))
    assert len(found) > 3
    for page in found:
        notes = re.findall(r"^(\d+) (.{18})", page, re.MULTILINE)
        numbered = [(int(number), begin) for number, begin in notes if begin in starts]
        shown = {m.music.footnotes[0].text[:18] for m in musics.values() if re.search(rf"{m.music.name}\b", page)}
        assert [number for number, _ in numbered] == list(range(1, len(numbered) + 1))
        assert {begin for _, begin in numbered} == shown
        marks = [int(n) for n in re.findall(r"^(\d+)$", page, re.MULTILINE)]
        assert set(range(1, len(numbered) + 1)) <= set(marks)


def test_numbers_of_a_notes_page_stay(run):
    made, _ = run
    whole = "\n".join(pages(made.file("noted", "pdf")))
    assert whole.count("77") == 32
    assert "Growl with" not in whole


def test_a_note_takes_the_lines_that_the_page_breaker_reckons_with(run, engraved):
    made, musics = run
    whole = "\n".join(pages(made.file("page", "pdf")))
    texts = {f.text for one in musics.values() for f in one.music.footnotes}
    taken = {}
    settings = engraved(PIECE.format(gestures="gesture one\n  contour: C5\n"))[""]
    for text in texts:
        words = unicodedata.normalize("NFKC", text).split()
        printed = re.search(r"\s+".join(map(re.escape, words)), whole)
        assert printed, text
        taken[text] = printed[0].count("\n") + 1
    assert set(taken.values()) == {1, 2}
    assert taken == {text: _lines(text, settings) for text in texts}
