"""Any valid file reads, formats and reads the same again; any text at all reads without an exception."""

import gc
import time

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from lang.reading import bare, read
from lang.strategies import broken_files, gesture_files
from sampling import count, sample

from gesturesmith.lang import format_text
from gesturesmith.lang.messages import RULES
from gesturesmith.source import Source

SLOW = settings(max_examples=count(10, 30, 300), suppress_health_check=list(HealthCheck))


def comments(text):
    """Every comment of a file that reads, in order."""
    from gesturesmith.lang.keys import pattern
    from gesturesmith.lang.layout import classify_lines
    from gesturesmith.lang.tokens import tokenize

    found, key = [], ""
    for line in classify_lines(Source("", text).lines):
        raw = line.content.raw
        if line.kind == "comment":
            found.append(raw.strip())
        elif line.kind != "blank":
            key = line.key or key
            at = tokenize(line.content, line.value, pattern(key))[1]
            found += [raw[at:].strip()] if at >= 0 else []
    return found


@SLOW
@given(gesture_files())
def test_what_the_language_allows_reads_without_an_error(text):
    tree, errors = read(text)
    assert errors == ()
    assert all(e.value is not None for b in tree.blocks for e in b.entries)
    assert not any(b.broken for b in tree.blocks)


@SLOW
@given(gesture_files())
def test_formatting_keeps_the_tree_and_every_comment(text):
    written = format_text(Source("", text))
    tree, errors = read(written)
    assert errors == ()
    assert bare(tree) == bare(read(text)[0])
    assert comments(written) == comments(text)


@SLOW
@given(gesture_files())
def test_formatting_twice_changes_nothing_more(text):
    once = format_text(Source("", text))
    assert format_text(Source("", once)) == once
    assert "\r" not in once
    assert "\n\n\n" not in once
    assert all(line == line.rstrip() for line in once.split("\n"))


def check(text):
    """Reads without an exception, every error is in the table, in order and inside the text."""
    source = Source("", text)
    _, errors = read(text)
    lines = source.lines
    for error in errors:
        assert RULES[error.rule] == error.code
        assert 1 <= error.span.line <= len(lines)
        assert 1 <= error.span.column < error.span.end_column <= len(lines[error.span.line - 1]) + 2
        assert error.message
        assert len(error.message) < 400
        assert len(error.nearest) <= 3
    places = [(e.span.line, e.span.column) for e in errors]
    assert places == sorted(places)
    assert format_text(source) == text if errors else True


@SLOW
@given(broken_files())
def test_a_damaged_file_reads_as_far_as_it_can(text):
    check(text)


@settings(max_examples=count(50, 150))
@given(st.text(st.characters(), max_size=200))
def test_any_text_reads_without_failing(text):
    check(text)


@settings(max_examples=count(30, 100))
@given(
    st.text(
        alphabet=st.sampled_from('gestur contour:C4xHb#^v~-._@,<>%/"“”\\\n\t\r  1/0\ud800\u200b\u0301½'),
        max_size=200,
    )
)
def test_any_text_of_the_language_s_own_signs_reads_without_failing(text):
    check("gesture a\n  contour: " + text)


@settings(max_examples=count(30, 100))
@given(st.binary(max_size=300))
def test_any_bytes_read_without_failing(data):
    check(data.decode("utf-8", "surrogateescape"))
    check(data.decode("latin-1"))


PIECES = (
    " ", "\t", "#", " #", "  #", '"', "“", "\\", "-", "~", "@", "x", "1", "C4", "C4 ", ", ", "C4+1", "C4-", "F#^",
    "a-", "a_", "é", "e\u0301", "<", "1/", "%", "\x07", "\ud800", "gesture a\n", "\n", "  a\n", "\t a\n", "a:\n",
    "q b\n", " :", "contour: ", "C4 ~~ ", "G4 r, ", "½",
)  # fmt: skip


@pytest.mark.parametrize("piece", sample(PIECES, 4))
@pytest.mark.parametrize(
    "start", ["", "gesture a\n  contour: ", "title: ", "gesture a\n  fingering: ", "passage a\n  play: "]
)
def test_time_grows_with_the_length_of_the_text_and_no_faster(piece, start):
    """Eight times the text takes at most thirty times as long: a quadratic reader would take sixty-four."""

    def seconds(size):
        text = start + piece * (size // len(piece))
        best = 9e9
        gc.disable()  # its cost depends on what other tests have left in memory
        try:
            for _ in range(2):
                begin = time.process_time()
                read(text)
                best = min(best, time.process_time() - begin)
        finally:
            gc.enable()
        return best

    small, large = seconds(4_000), seconds(32_000)
    assert large < 30 * max(small, 0.002)
