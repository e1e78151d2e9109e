"""LilyPond's messages, in the form of 2.24 and 2.25, as values."""

from __future__ import annotations

import pytest

from gesturesmith.lilypond import failure
from gesturesmith.lilypond.log import gesture_at, read_log

DOCUMENT = """\\version "2.24.0"
% gesture beacon
\\score { { c1 } }
% passage opening
\\score { { c1
  d1 } }
"""

# Copied from runs of 2.25.12.
LOG = """-:5:6: error: unknown command: `\\foo'
{ c1
     \\foo }
-:3:7: error: Guile signaled an error for the expression beginning here
{ c1 #
      (car (list)) }
In procedure car: Wrong type (expecting pair): ()
-:6:18: warning: bar check failed at: 1/2
 { c4 c c c | c2
                 | c1 }
warning: compressing over-full page by 2.0 staff-spaces
programming error: insane spring distance requested, ignoring it
continuing, cross fingers
ice-9/eval.scm:155:9: In procedure car: Wrong type argument in position 1 (expecting pair): ()
ERROR: In procedure %resolve-variable:
Unbound variable: no-such
fatal error: failed files: "-"
"""


def test_every_message_with_its_place():
    assert [(m.level, m.line) for m in read_log(LOG)] == [
        ("error", 5),
        ("error", 3),
        ("warning", 6),
        ("warning", None),
        ("programming error", None),
        ("error", None),
        ("error", None),
        ("fatal error", None),
    ]


def test_what_scheme_says_is_joined_to_its_error():
    texts = [m.text for m in read_log(LOG)]
    assert texts[1].endswith("here: In procedure car: Wrong type (expecting pair): ()")
    assert texts[6] == "In procedure %resolve-variable: Unbound variable: no-such"


def test_a_place_in_a_template_is_none_in_the_document():
    (message,) = read_log("/somewhere/stencils/line.ily:12:3: error: bad")
    assert message.line is None


@pytest.mark.parametrize(
    ("line", "name"),
    [(1, None), (2, "beacon"), (3, "beacon"), (4, "opening"), (6, "opening"), (None, None), (99, "opening")],
)
def test_which_gesture_a_line_belongs_to(line, name):
    assert gesture_at(DOCUMENT, line) == name


def test_warnings_alone_are_no_failure():
    assert failure(DOCUMENT, read_log("-:3:1: warning: bar check failed"), "") is None


def test_a_place_counts_more_than_what_is_missing():
    failed = failure(DOCUMENT, read_log("-:6:1: error: bad"), "failed", ("beacon",))
    assert (failed.gesture, failed.summary) == ("opening", "LilyPond failed (bad)")


def test_a_missing_page_of_many_names_nobody():
    assert failure(DOCUMENT, (), "", ("",)).gesture is None


def test_a_message_is_short_and_printable():
    """A log may repeat the content of a file: none of it may control or flood a terminal."""
    (message,) = read_log("-:1:1: error: \x1b[31m" + "x" * 5000)
    assert message.text.isprintable()
    assert len(message.text) == 200
