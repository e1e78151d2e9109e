"""What follows a muted passage on a page: the player is told to take the mute out.

Common practice: a player told "con sord." leaves the mute in until "senza sord." is read.
"""

from __future__ import annotations

import re
from pathlib import PurePosixPath

import pytest

from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

HEAD = "instrument: trumpet\npitches: written\nmeter: 4/4\n"
BLOCKS = """
gesture shut
  technique: muted
  mute: straight
  contour: C5
  lasts: 4 beats
gesture wide
  contour: D5
  lasts: 4 beats
"""
PARTS = """pitches: written
meter: 4/4
part one "Trumpet"
  instrument: trumpet
part two "Horn"
  instrument: horn
"""
# Words that are printed wherever they stand; those repeated only after a line break have an empty third text.
SAID = re.compile(r'passage (\w+)|\(\("((?:con|senza) sord[^"]*)" "[^"]*" "[^"]')


def read(text: str) -> dict[str, list[str]]:
    """By place of a page, names of passages and what is said of mutes, in order."""
    items = compile_text(Source("a.gesture", text), Options(stem="a")).items
    return {str(i.place): [a or b for a, b in SAID.findall(str(i.book))] for i in items if i.book}


def of_page(*plays: str) -> list[str]:
    lines = "".join(f"passage p{n}\n  play: {play}\n" for n, play in enumerate(plays, start=1))
    found = read(HEAD + BLOCKS + lines)["a"]
    return found[found.index("p1") :]


CON, OUT = "con sord. (straight)", "senza sord."


@pytest.mark.parametrize(
    ("plays", "said"),
    [
        (("wide, shut", "wide"), ["p1", CON, "p2", OUT]),
        (("wide, shut", "rest 4, wide"), ["p1", CON, "p2", OUT]),
        (("wide, shut", "shut"), ["p1", CON, "p2", CON]),  # it stays in, and is named again
        (("wide, shut", "rest 4, shut"), ["p1", CON, "p2", CON]),
        (("wide, shut, wide", "wide"), ["p1", CON, OUT, "p2"]),
        (("wide, shut", "rest 4", "wide"), ["p1", CON, "p2", "p3", OUT]),
        (("wide, shut", "wide, shut, wide"), ["p1", CON, "p2", OUT, CON, OUT]),
    ],
)
def test_a_mute_left_in_is_taken_out_in_the_next_passage(plays: tuple[str, ...], said: list[str]) -> None:
    assert of_page(*plays) == said


def test_a_gesture_after_a_muted_one_on_the_page() -> None:
    assert read(HEAD + BLOCKS)["a"] == [CON, OUT]


def test_a_picture_alone_does_not_know_what_came_before() -> None:
    items = compile_text(Source("a.gesture", HEAD + BLOCKS), Options(stem="a")).items
    (alone,) = (i for i in items if i.place == PurePosixPath("a/wide"))
    assert OUT not in str(alone.document)[-2000:]


def test_each_part_and_its_staff_in_the_score() -> None:
    """Only the player whose mute is in is told."""
    found = read(f"{PARTS}{BLOCKS}passage p1\n  one: shut\n  two: wide\npassage p2\n  one: wide\n  two: wide\n")
    assert [w for w in found["a"] if w in (CON, OUT)] == [CON, OUT]
    assert found["a/one"] == ["p1", CON, "p2", OUT]
    assert found["a/two"] == ["p1", "p2"]


def test_two_players_go_on_from_their_own_line() -> None:
    parts = PARTS.replace('part one "Trumpet"\n', 'part one "Trumpets"\n  players: 2\n')
    text = (
        f"{parts}{BLOCKS}passage p1\n  one: shut / wide\n  two: wide\npassage p2\n  one: wide / wide\n  two: wide\n"
    )
    assert [w for w in read(text)["a/one"] if w in (CON, OUT)] == [CON, OUT]
