"""The outline of a file, however unfinished, the block at a cursor, and names in all their places."""

from __future__ import annotations

from pathlib import Path

import pytest
from editing.asking import HEAD, cursor

from gesturesmith.checker import check_text
from gesturesmith.editing.names import Refusal, occurrences, rename
from gesturesmith.editing.outline import Fold, block_at, folds, outline
from gesturesmith.editing.text import applied
from gesturesmith.lang import parse
from gesturesmith.source import Source, Span

DOCS = Path(__file__).parent.parent.parent / "docs"
FILES = sorted((*DOCS.glob("demo/*.gesture"), *DOCS.glob("gallery/*.gesture")))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_the_outline_is_that_of_the_tree(path: Path):
    source = Source(path.name, path.read_text("utf-8"))
    tree, errors = parse(source)
    assert not errors
    seen = [(b.kind, b.name, b.title or None, b.span.line, b.name_span, b.last_line) for b in outline(source)]
    assert seen == [
        (b.kind, b.name.text, b.title.text if b.title else None, b.span.line, b.name.span, b.last_line)
        for b in tree.blocks
    ]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("instru|ment: horn\n", None),
        ("instrument: horn\n\ngesture a\n  contour: C5\n|\n", "a"),
        ("instrument: horn\n\ngesture a\n  contour: C5\n\ngesture b\n  con|", "b"),
        ("gesture a\n  contour: C5 --|\n\ngesture b\n", "a"),
        ("gesture a\n  contour: C5\ntempo: 60\n|", None),
        ("gesture |", ""),
        ("gesture a\n# a comment\n  contour|: C5", "a"),
        ("ges|", None),
        ('gesture a\n  text: "un|closed\n', "a"),
        ("passage p\n  play: a|", "p"),
    ],
)
def test_the_block_at_a_cursor(text: str, name: str | None):
    source, line, _ = cursor(text)
    found = block_at(source, line)
    assert (found and found.name) == name
    assert (found is None) == (name is None)


def test_a_line_outside_the_file_is_in_no_block():
    source = Source("", "gesture a")
    assert [block_at(source, line) for line in (-1, 0, 2, 99)] == [None] * 4


def test_what_can_be_folded():
    text = "# one\n# two\n\ngesture a\n  contour: C5,\n    D5,\n    E5\n  lasts: 3 beats\n\npassage p\n"
    assert folds(Source("", text)) == (Fold(1, 2, comment=True), Fold(4, 8), Fold(5, 7))


PIECE = (
    f"{HEAD}gesture mark\n  contour: C5\n\nbox echo\n  play: call, rest 2\n  lasts: 20 s\n\n"
    "passage first-time\n  play: call, mark A, Call up 2, mark,\n    rest 2, echo, C4 for 1\n\n"
    "exercises more\n  from: call\n\n"
    "part one\n  instrument: horn\npassage all\n  one: call, first-time / call, rest 4\n"
)


def places(text: str) -> list[tuple[int, int]]:
    return [(p.span.line, p.span.column) for p in occurrences(*cursor(text))]


def test_a_name_is_found_wherever_it_stands():
    text = PIECE.replace("gesture call", "gesture ca|ll", 1)
    rows = PIECE.split("\n")
    found = occurrences(*cursor(text))
    assert len(found) == 7
    assert all(rows[p.span.line - 1][p.span.column - 1 : p.span.end_column - 1].lower() == "call" for p in found)
    assert [p.defines for p in found] == [True, *[False] * 6]
    assert places(PIECE.replace("from: call", "from: c|all")) == [(p.span.line, p.span.column) for p in found]


def test_a_mark_is_no_gesture_of_that_name():
    assert len(places(PIECE.replace("gesture mark", "gesture m|ark"))) == 2


def test_a_part_is_renamed_with_its_lines():
    source, line, column = cursor(PIECE.replace("part one", "part on|e"))
    made = rename(source, line, column, "horn-1")
    assert not isinstance(made, Refusal)
    assert "part horn-1\n" in (after := applied(source.lines, made))
    assert "  horn-1: call" in after


@pytest.mark.parametrize("broken", ["", "  dynamics: nonsense\n", "  lasts:\n"])
def test_a_renamed_file_says_the_same(broken: str):
    """Whatever mistakes it has: nothing else changes, and no more mistakes appear."""
    text = (
        f"{HEAD}gesture a\n  contour: C5\n{broken}\npassage p\n  play: a, call, nothing / , a up 2,\n    rest, a\n"
    )
    source = Source("", text)
    made = rename(source, 7, 9, "other")
    assert not isinstance(made, Refusal)
    after = Source("", applied(source.lines, made))
    assert after.text.count("other") == 4
    rules = [[e.rule for e in check_text(one).report.errors] for one in (source, after)]
    assert rules[0] == rules[1]


@pytest.mark.parametrize(
    ("name", "reason"),
    [
        ("two words", "is not a name"),
        ("rest", "word of the language"),
        ("C4", "word of the language"),
        ("Echo", "is taken"),
        ("2nd", "is not a name"),
        ("under_score", "write `under-score`"),
        ("", "is not a name"),
    ],
)
def test_what_cannot_be_a_name_is_refused_with_the_reason(name: str, reason: str):
    source, line, column = cursor(PIECE.replace("gesture call", "gesture ca|ll", 1))
    refused = rename(source, line, column, name)
    assert isinstance(refused, Refusal)
    assert reason in refused.reason


def test_other_capitals_are_the_same_name():
    source, line, column = cursor(PIECE.replace("gesture call", "gesture ca|ll", 1))
    assert isinstance(rename(source, line, column, "Call"), tuple)


@pytest.mark.parametrize("text", ["instru|ment: horn", "gesture a\n  contour: C|5", "passage p\n  play: un|known"])
def test_where_there_is_no_name_nothing_is_renamed(text: str):
    assert places(text) == []
    assert isinstance(rename(*cursor(text), "other"), Refusal)


def test_spans_are_of_the_name_alone():
    (first, *_) = occurrences(*cursor(PIECE.replace("gesture call", "gesture ca|ll", 1)))
    assert first.span == Span(4, 9, 13)
