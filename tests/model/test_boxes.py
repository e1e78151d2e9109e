"""Boxes: what stands in them, how long they last, and what cannot be one."""

from __future__ import annotations

import pytest

from gesturesmith.model.reading import read
from gesturesmith.source import Source

HEAD = "instrument: horn\npitches: written\ntempo: 60\n"
CALL = "gesture call\n  contour: G4, C5\n"


def passage(box: str, play: str = "echo", *more: str):
    lines = "".join(f"  {line}\n" for line in box.split("; "))
    rest = "".join(f"  {line}\n" for line in more)
    found = read(Source("a", f"{HEAD}{CALL}box echo\n{lines}passage p\n  play: {play}\n{rest}"))
    assert found.piece is not None
    assert not found.errors, found.errors
    return found.piece.passages[0]


def test_what_stands_in_a_box_and_the_time_after_it() -> None:
    found = passage("play: call, rest 1; lasts: 20 s", "C5 for 1, echo, C5 for 2")
    places = [(float(i.at), i.box and (i.box.cell, i.box.first, i.box.last)) for i in found.items]
    assert places[:4] == [(0, None), (1, (0, True, False)), (3, (0, False, True)), (4, (-1, False, False))]
    assert places[4][1] is None
    box = found.items[1].box.box
    assert (box.beats, box.in_seconds, box.cue, box.pace, box.choose) == (20, True, "", "", "")


def test_in_bars_it_has_its_beats() -> None:
    found = passage("play: call, C5 for 1; lasts: 10 beats", "echo, C5 for 2", "meter: 4/4")
    assert [float(i.at) for i in found.items] == [0, 2, 3, 10]


def test_a_cue_and_the_most_there_is_of_it() -> None:
    box = passage('play: call; lasts: until "the oboe enters"').items[0].box.box
    assert (box.cue, box.beats) == ("the oboe enters", 30)
    assert passage('play: call; lasts: until "the oboe" within 12 s').items[0].box.box.beats == 12


def test_several_to_choose_from() -> None:
    found = passage("play: call; play: C4 for 1, rest 1; choose: any order; lasts: 20 s; pace: as fast as possible")
    assert [i.box.cell for i in found.items] == [0, 1, 1, -1]
    assert (found.items[0].box.box.choose, found.items[0].box.box.pace) == ("any order", "as fast as possible")


MISTAKES = [
    ("box-without-end", "box «echo»\n  play: call\npassage p\n  play: echo\n", "`lasts: 20 s`"),
    ("box-too-short", "box echo\n  play: call\n  lasts: «3 beats»\npassage p\n  play: echo\n", "twice as long"),
    ("box-choice", "box «echo»\n  lasts: 9 s\npassage p\n  play: echo\n", "add `play:"),
    (
        "box-choice",
        "box «echo»\n  play: call\n  play: C5 for 1\n  lasts: 9 s\npassage p\n  play: echo\n",
        "`choose: one` or `choose: any order`",
    ),
    (
        "box-choice",
        "box echo\n  play: call\n  choose: «one»\n  lasts: 9 s\npassage p\n  play: echo\n",
        "add another",
    ),
    ("box-content", "box echo\n  play: «rest 2»\n  lasts: 9 s\npassage p\n  play: echo\n", "silence alone"),
    (
        "box-content",
        "box echo\n  play: «p»\n  lasts: 9 s\npassage p\n  play: C5 for 1, echo\n",
        "gestures, pitches",
    ),
    (
        "box-content",
        "box echo\n  play: «later»\n  lasts: 9 s\nbox later\n  play: C5 for 1\n  lasts: 9 s\n"
        "passage p\n  play: later, echo\n",
        "gestures, pitches",
    ),
    ("unknown-name", "box echo\n  play: «cal»\n  lasts: 9 s\npassage p\n  play: echo\n", "did you mean `call`"),
    ("box-unplayed", "box «echo»\n  play: call\n  lasts: 9 s\npassage p\n  play: call\n", "to a `play`"),
    (
        "cannot-move",
        "box echo\n  play: call\n  lasts: 9 s\npassage p\n  play: «echo up M2»\n",
        "can be moved only there",
    ),
    (
        "box-in-bars",
        "box echo\n  play: call\n  lasts: 9 s\npassage p\n  meter: 4/4\n  play: «echo»\n",
        "give `lasts` in beats",
    ),
    (
        "box-in-bars",
        'box echo\n  play: call\n  lasts: until "now"\npassage p\n  meter: 4/4\n  play: «echo»\n',
        "lasts until a cue",
    ),
    (
        "box-in-bars",
        "box echo\n  play: call\n  play: C5 for 1\n  choose: one\n  lasts: 9 beats\npassage p\n  meter: 4/4\n"
        "  play: «echo»\n",
        "write them out",
    ),
]


@pytest.mark.parametrize(("rule", "text", "message"), MISTAKES)
def test_what_cannot_be_a_box(rule: str, text: str, message: str) -> None:
    plain = f"{HEAD}{CALL}{text}"
    (line,) = (n for n, words in enumerate(plain.split("\n"), start=1) if "«" in words)
    words = plain.split("\n")[line - 1]
    (error,) = read(Source("a", plain.replace("«", "").replace("»", ""))).errors
    assert error.rule == rule
    assert message in error.message
    place = (error.span.line, error.span.column, error.span.end_column)
    assert place == (line, words.index("«") + 1, words.index("»"))


@pytest.mark.parametrize(
    ("lasts", "message"),
    [
        ("20", "20 s or 20 beats"),
        ('"the oboe"', "`until` before it"),
        ("until the oboe", "the cue in quotes"),
        (f'until "{"x" * 100}"', "at most 80"),
        ("20 s 3", "takes one length"),
        ("0 s", "above zero"),
    ],
)
def test_a_length_that_is_none(lasts: str, message: str) -> None:
    text = f"{HEAD}{CALL}box echo\n  play: call\n  lasts: {lasts}\npassage p\n  play: echo\n"
    (error,) = read(Source("a", text)).errors
    assert message in error.message
