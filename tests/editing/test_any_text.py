"""No text and no cursor in it makes an answer fail, and what is answered lies in the text."""

from __future__ import annotations

import random
from pathlib import Path

import timing
from sampling import count

from gesturesmith.editing.complete import complete
from gesturesmith.editing.hover import hover
from gesturesmith.editing.names import occurrences, rename
from gesturesmith.editing.outline import block_at, folds, outline
from gesturesmith.editing.text import TextChange, applied
from gesturesmith.source import Source, Span

DOCS = Path(__file__).parent.parent.parent / "docs"
TEXTS = [path.read_text("utf-8") for path in sorted(DOCS.glob("*/*.gesture"))]
SIGNS = ' \t\n:,#"“”@~-_+<>%/\\♯♭𝄲\ud800\x00\x1b\u2028\ufeff\u00a0éx4CGrs'


def _damaged(lot: random.Random) -> str:
    """A text as it is between two keystrokes: pieces of others, cut and mixed with signs."""
    text = lot.choice(TEXTS)
    start = lot.randrange(len(text))
    piece = text[start : start + lot.randrange(400)]
    for _ in range(lot.randrange(6)):
        at = lot.randrange(len(piece) + 1)
        piece = piece[:at] + lot.choice(SIGNS) + piece[at + lot.randrange(3) :]
    return lot.choice(("", "instrument: horn\n", "gesture a\n  ")) + piece


def test_any_text_and_any_cursor_has_an_answer():
    lot = random.Random(16)
    for _ in range(count(160, 5000)):
        source = Source("", _damaged(lot))
        lines = source.lines
        line = lot.randrange(len(lines) + 3)
        column = lot.randrange(90)
        completion = complete(source, line, column)
        if 1 <= line <= len(lines) and column >= 1:
            end = min(column, len(lines[line - 1]) + 1)
            for offer in completion.offers:
                assert 1 <= completion.start <= end
                assert offer.help
                applied(lines, (TextChange(Span(line, completion.start, end), offer.insert),))
        else:
            assert not completion.offers
        found = hover(source, line, column)
        assert found is None or (found.span.line == line and found.title)
        block = block_at(source, line)
        assert block is None or block.span.line <= line
        for one in (*outline(source), *folds(source)):
            assert one.last_line <= len(lines)
        for place in occurrences(source, line, column):
            assert lines[place.span.line - 1][place.span.column - 1 : place.span.end_column - 1]
        rename(source, line, column, "other")


def test_a_large_file_is_answered_at_once():
    """Two megabytes: only the block of the cursor is read."""
    block = "gesture g{}\n  technique: bend\n  contour: C5 -- D5, E5 accent\n  lasts: 4 beats\n\n"
    text = "instrument: horn\npitches: written\n" + "".join(block.format(n) for n in range(24_000))
    source = Source("", f"{text}gesture last\n  technique: be")
    line = source.text.count("\n") + 1
    complete(source, line, 16)
    hover(source, line, 16)
    assert timing.within(1.0, lambda: (complete(source, line, 16), hover(source, line, 16), block_at(source, line)))
