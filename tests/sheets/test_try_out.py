"""Try-out sheets as pages: in every language, on one or two pages, without a message of LilyPond."""

from __future__ import annotations

import io
from fractions import Fraction

import pypdf
import pytest
from sampling import sample

from gesturesmith import instruments, sheets
from gesturesmith.exercises.tryout import chosen
from gesturesmith.lilypond import Job, LilyPond, find, start
from gesturesmith.model.piece import Settings
from gesturesmith.pipeline.tryout import TryOutOptions, compile_try_out

CASES = [("horn", ("en",)), ("trombone-f", ("de", "fr")), ("tuba", ("it",))]


def compiled(name: str, wording: tuple[str, ...]):
    settings = Settings(
        instrument=instruments.get(name),
        pitches="written",
        wording=wording,
        paper_mm=(Fraction(210), Fraction(297)),
    )
    asked = chosen(settings.instrument, {}, 5)
    return compile_try_out((), TryOutOptions(questions=asked, settings=settings))


@pytest.mark.lilypond
@pytest.mark.parametrize(("name", "wording"), sample(CASES, 3), ids=str)
def test_a_sheet_is_engraved_without_a_message(name: str, wording: tuple[str, ...]) -> None:
    lilypond = find()
    assert isinstance(lilypond, LilyPond)
    (item,) = compiled(name, wording).items
    with start(lilypond, ("pdf",)) as waiting:
        waiting.feed(Job(document=sheets.document((item.book,))))
        run = waiting.result()
    assert run.messages == ()
    reader = pypdf.PdfReader(io.BytesIO(run.file("tryout", "pdf")))
    assert 1 <= len(reader.pages) <= 2


def test_each_trial_has_its_number_and_three_boxes() -> None:
    (item,) = compiled("horn", ("en",)).items
    numbers = [n for n in range(1, 30) if f'\\gs-trial "{n}." "fine" "with care" "no"' in item.book]
    assert numbers == list(range(1, item.book.count('\\gs-trial "') + 1))
    assert len(numbers) >= 15
    assert '\\gs-blanks "Player" "Date"' in item.book
    assert "you may always play an easier version" in item.book


def test_no_limit_is_given_away() -> None:
    """The player is not told where the checker has it."""
    (item,) = compiled("horn", ("en",)).items
    assert "limit" not in item.book.lower()
