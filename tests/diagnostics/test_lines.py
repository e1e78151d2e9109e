"""The user's line on a terminal: nothing hidden, the caret under the right character."""

import pytest

from gesturesmith.diagnostics.lines import WIDEST, excerpt, visible, width
from gesturesmith.source import Span


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("plain", "plain"),
        ("a\x1b[31mb", "a<U+001B>[31mb"),
        ("a\u202eb", "a<U+202E>b"),  # right-to-left override
        ("a\u2066b\u2069", "a<U+2066>b<U+2069>"),
        ("a\u200bb", "a<U+200B>b"),  # zero-width space
        ("a\u2028b", "a<U+2028>b"),
        ("a\x00b\x7f", "a<U+0000>b<U+007F>"),
        ("a\u115f\u1160b\u3164\uffa0", "a<U+115F><U+1160>b<U+3164><U+FFA0>"),  # invisible letters
        ("\tx", "    x"),
        ("♯♭𝄲", "♯♭𝄲"),
    ],
)
def test_hidden_signs_are_spelled_out(text, shown):
    assert visible(text) == shown


def marked(line, span):
    """The text above the carets."""
    shown, carets = excerpt(line, span)
    start = len(carets) - len(carets.lstrip())
    assert set(carets.lstrip()) == {"^"}
    return shown[start : start + carets.count("^")]


def test_the_caret_stands_under_its_words():
    assert marked("  contour: C5, G5, C6", Span(7, 20, 22)) == "C6"


def test_tabs_and_hidden_signs_before_the_caret_are_counted():
    assert marked("\tcontour:\tC5, \u202eG5", Span(1, 16, 18)) == "G5"


def test_wide_signs_take_two_columns():
    shown, carets = excerpt('  text: "遠く"  oops', Span(1, 15, 19))
    assert width(shown[: shown.index("oops")]) == carets.index("^")


def test_an_empty_span_and_one_past_the_end_have_one_caret():
    assert excerpt("  lasts:", Span(1, 9, 9))[1] == " " * 8 + "^"
    assert excerpt("ab", Span(1, 6, 7))[1] == " " * 5 + "^"


@pytest.mark.parametrize("column", [1, 30, 5_000, 1_999_990])
def test_an_endless_line_is_cut_around_its_caret(column):
    line = "".join(f"{i:07d}," for i in range(250_000))
    shown, carets = excerpt(line, Span(1, column, column + 7))
    assert width(shown) <= WIDEST + 2
    assert len(carets) <= WIDEST + 2
    assert marked(line, Span(1, column, column + 7)) == line[column - 1 : column + 6]
    assert shown.startswith("…") == (column > 30)


def test_a_marked_stretch_wider_than_the_screen_is_cut():
    shown, carets = excerpt("x" * 1000, Span(1, 1, 1001))
    assert len(carets) < WIDEST
    assert shown.endswith("…")
