"""Boxes on the page: a frame, a line with its words, and what a player is told of them."""

from __future__ import annotations

import re

import pytest

CALL = "gesture call\n  contour: G4 grace, C5\n  lasts: 2 beats\n"


def made(engraved, box: str, *more: str, play: str = "echo") -> str:
    lines = "".join(f"  {line}\n" for line in box.split("; "))
    rest = "".join(f"  {line}\n" for line in more)
    music = engraved(f"{CALL}box echo\n{lines}passage p\n  play: {play}\n{rest}")["p"]
    return " ".join(music.ly.split())


def test_a_frame_from_its_first_grace_to_its_last_note_and_a_line(engraved) -> None:
    ly = made(engraved, "play: call, rest 1, E5 for 1; lasts: 20 s")
    assert ly.index(r"\gsFrame ") < ly.index("c''2") < ly.index("e''4") < ly.index(r"\gsFrameEnd")
    assert ly.index(r"\gsFrame ") < ly.index("}")  # at the grace note
    assert ly.index(r"\gsFrameEnd") < ly.index(r'\gsGoesOn "20 s"') < ly.index(r"\gsGoesOnEnd")


def test_the_words_of_a_box(engraved) -> None:
    box = 'play: call; play: C5 for 1; choose: one; pace: irregular; lasts: until "the bell"'
    ly = made(engraved, box)
    assert ly.count(r"\gsFrame ") == ly.count(r"\gsFrameEnd") == 2
    assert r'\gsFrameWords "choose one, irregular"' in ly
    assert r'\gsGoesOn "until “the bell”"' in ly


def test_a_cue_and_the_most_there_is_of_it(engraved) -> None:
    ly = made(engraved, 'play: call; lasts: until "{length}" within 12 s')
    assert r'\gsGoesOn "until “{length}”, within 12 s"' in ly


def test_its_title_stands_over_it(engraved) -> None:
    text = f'{CALL}box echo "Echo"\n  play: call\n  pace: irregular\n  lasts: 20 s\npassage p\n  play: echo\n'
    assert r'\gsFrameWords "Echo, irregular"' in engraved(text)["p"].ly


# In any order, or again after its end, a cell comes after any other: what these end with is cancelled where it does
# not hold, and named again where it does.
@pytest.mark.parametrize(
    ("box", "said"),
    [
        ("play: call, rest 1", []),
        ("play: roll, rest 1", ["flz."]),
        ("play: call, roll", ["ord.", "flz."]),
        ("play: roll, call", ["flz.", "ord."]),
        ("play: roll; play: call; choose: any order", ["flz.", "ord."]),
        ("play: call; play: roll; play: roll, call; choose: any order", ["ord.", "flz.", "flz.", "ord."]),
        ("play: call; play: call; choose: one", []),
    ],
)
def test_techniques_in_boxes(engraved, box, said) -> None:
    roll = "gesture roll\n  technique: flutter-tongue\n  contour: C5\n"
    lines = "".join(f"  {line}\n" for line in f"{box}; lasts: 30 s".split("; "))
    text = f"{CALL}{roll}box echo\n{lines}passage p\n  play: echo, D5 for 2\n"
    after = ["ord."] if "roll" in box and box != "play: roll, call" else []
    assert re.findall(r'\("[^"]*" "([^"]+)" "[^"]*"\)', engraved(text)["p"].ly) == [*said, *after]


def test_no_rest_stands_for_the_time_of_a_box(engraved) -> None:
    ly = made(engraved, "play: call, rest 2; lasts: 16 beats", "meter: 4/4", play="echo, rest 4")
    rests = [word for word in ly.split() if word.startswith(("r", "R"))]
    assert rests == ["r2", "R1"]
    assert ly.count("s4 * 4/1") == 3  # bar by bar


def test_what_follows_a_box_is_told_in_words(engraved) -> None:
    text = f"{CALL}box echo\n  play: call, rest 1\n  pace: irregular\n  lasts: 20 s\npassage p\n  play: echo\n"
    said = engraved(text)["p"].music.description
    assert "in a box: call, rest for 1 beat (irregular); repeated for 20 seconds" in said
