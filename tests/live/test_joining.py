"""Two versions of a text, joined by lines as in diff3 (Khanna, Kunal and Pierce, "A formal investigation of diff3",
2007): a stable line stays, a line that one side changed is that side's, and neither side's change is ever lost."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gesturesmith.live.joining import joined

BASE = "instrument: horn\npitches: written\ntempo: 72\n\ngesture a\n  contour: G4\n"


def changed(*pairs: tuple[str, str]) -> str:
    text = BASE
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    return text


SLOWER = changed(("72", "60"))


@pytest.mark.parametrize(
    ("mine", "theirs", "both"),
    [
        (BASE, BASE, BASE),
        (BASE, changed(("72", "60")), changed(("72", "60"))),  # only the file was changed
        (changed(("72", "60")), BASE, changed(("72", "60"))),  # only the window
        (changed(("72", "60")), changed(("72", "60")), changed(("72", "60"))),  # both the same
        (changed(("72", "60")), changed(("G4", "C5")), changed(("72", "60"), ("G4", "C5"))),
        (changed(("horn", "tuba"), ("G4", "C5")), SLOWER, changed(("72", "60"), ("horn", "tuba"), ("G4", "C5"))),
        (BASE + "# mine\n", changed(("72", "60")), changed(("72", "60")) + "# mine\n"),
        (changed(("tempo: 72\n", "")), BASE + "# theirs\n", changed(("tempo: 72\n", "")) + "# theirs\n"),
        (changed(("72", "60"), ("G4", "C5")), changed(("72", "60")), changed(("72", "60"), ("G4", "C5"))),
    ],
)
def test_changes_of_different_lines_are_joined(mine, theirs, both):
    assert joined(BASE, mine, theirs) == both
    assert joined(BASE, theirs, mine) == both


@pytest.mark.parametrize(
    ("mine", "theirs"),
    [
        (changed(("72", "60")), changed(("72", "80"))),
        (changed(("72", "60")), changed(("tempo: 72\n", ""))),  # changed and removed
        (changed(("72", "60")), changed(("written", "sounding"))),  # neighbours
        (BASE + "# mine\n", BASE + "# theirs\n"),  # in which order?
        ("", changed(("72", "60"))),
        (changed(("instrument: horn\n", "instrument: tuba\n# x\n")), changed(("instrument: horn\n", ""))),
    ],
)
def test_changes_of_the_same_lines_are_not(mine, theirs):
    assert joined(BASE, mine, theirs) is None
    assert joined(BASE, theirs, mine) is None


@pytest.mark.parametrize("odd", ["\x0b", "\x0c", "\x1c", "\u2028", "\x85", "\r"])
def test_only_line_feeds_end_lines(odd):
    """What `str.splitlines` takes for the end of a line stays within it."""
    assert joined(f"a{odd}b\nc\nd\n", f"A{odd}b\nc\nd\n", f"a{odd}b\nc\nD\n") == f"A{odd}b\nc\nD\n"


LINES = st.lists(st.sampled_from(["a", "b", "c", "d", ""]), max_size=8)
TEXT = LINES.map("\n".join)


@given(TEXT, TEXT)
def test_without_another_change_the_text_is_that_of_the_one_side(base, mine):
    assert joined(base, mine, base) == mine
    assert joined(base, base, mine) == mine
    assert joined(base, mine, mine) == mine


@given(TEXT, TEXT, TEXT)
def test_neither_side_comes_first(base, mine, theirs):
    assert joined(base, mine, theirs) == joined(base, theirs, mine)


@given(TEXT, st.integers(0, 7), st.integers(0, 7))
def test_a_line_that_only_one_side_has_put_in_is_there(base, here, there):
    """Each line put in is new, so it can be found again."""
    lines = base.split("\n")
    mine, theirs = list(lines), list(lines)
    mine.insert(min(here, len(lines)), "mine")
    theirs.insert(min(there, len(lines)), "theirs")
    both = joined(base, "\n".join(mine), "\n".join(theirs))
    if both is not None:
        found = both.split("\n")
        assert sorted(found) == sorted([*lines, "mine", "theirs"])
        assert [line for line in found if line not in ("mine", "theirs")] == lines
