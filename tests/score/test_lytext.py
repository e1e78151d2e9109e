"""A user's text stays text: whatever it contains, LilyPond sees one string."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gesturesmith import lytext

# One LilyPond string: inside its quotes a backslash or quote only after a backslash, and no line endings.
ONE_STRING = re.compile(r'"(?:[^"\\\n\r]|\\["\\])*"')

HOSTILE = (
    '"',
    '\\"',
    '\\\\"',
    '" #(system "date") "',
    '#(system "date")',
    '\\include "secret"',
    "}\n\\score { c' }",
    "$(exit 1)",
    "text \\",
    "%{ comment",
    "two\nlines\r\nthree\u2028four\u2029five\x85six",
    "tab\tand\x00null\x07bell\x1bescape",
    "\u202eright to left\u2066isolate\u2069",
    "\ud800 lone \udfff surrogates",
    "\ufeffbyte order mark\u200bzero width",
    "\ue000private",
)


def read_back(string: str) -> str:
    """The text that LilyPond reads from one of its strings."""
    assert ONE_STRING.fullmatch(string), string
    return re.sub(r"\\(.)", r"\1", string[1:-1])


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_is_one_string(text: str) -> None:
    assert read_back(lytext.quoted(text)) == lytext.printable(text)


@given(st.text())
def test_any_text_is_one_string(text: str) -> None:
    quoted = lytext.quoted(text)
    quoted.encode()
    assert read_back(quoted) == lytext.printable(text)


@pytest.mark.parametrize("text", ["Fog Signals", "½ valve", "à peine, „leise“", "B♭ 𝄲", "雾", "a\u0301"])
def test_ordinary_text_is_kept(text: str) -> None:
    assert read_back(lytext.quoted(text)) == text


def test_what_ends_a_line_is_a_space() -> None:
    assert lytext.printable("one\ntwo\u2028three") == "one two three"


@given(st.text())
def test_a_comment_is_one_line(text: str) -> None:
    comment = lytext.comment(text)
    assert comment.startswith("% ")
    assert len(comment.splitlines()) == 1


@given(st.text())
def test_a_variable_is_one_string(name: str) -> None:
    assert read_back(lytext.variable(name)) == f"gesture-{lytext.printable(name)}"
