"""A sample of all pairs of techniques on the page; `python tests/golden/pairs.py FOLDER` reads every one."""

from __future__ import annotations

from dataclasses import replace

import pytest
from golden import pairs
from golden.outlines import Block, Staff
from golden.programs import PROGRAMS
from sampling import sample, whole

from gesturesmith import techniques

_EVERY = 97


@whole
@pytest.mark.lilypond
@pytest.mark.parametrize("program", sample(PROGRAMS, 2), ids=str)
def test_joined_techniques_are_all_told_and_nothing_touches(program, tmp_path):
    some = pairs.pairs()[::_EVERY]
    assert len(some) > 15
    assert pairs.faults(some, tmp_path, program) == []


def _flutter_growl():
    pair = pairs.Pair(techniques.get("flutter-tongue"), techniques.get("bells-up"))
    ((_, music, _),) = pairs.engraved([pair])
    return pair, music


def test_a_technique_that_nothing_tells_of_is_found():
    pair, music = _flutter_growl()
    assert pairs.unsaid(pair, music) == []
    part = music.parts[0]
    silent = tuple(replace(event, labels=()) for event in part.played.events)
    bare = replace(music, parts=(replace(part, played=replace(part.played, events=silent)),))
    assert pairs.unsaid(pair, bare) == ["bells-up"]  # the slashes still tell of the tongue


def test_a_word_on_a_head_is_found():
    square = tuple((x / 10, y / 10) for x in range(11) for y in range(11))
    aside = tuple((x + 2, y) for x, y in square)
    staff = lambda place: Staff(1.0, (Block("GestureWords", square), Block("NoteHead", place)), ())  # noqa: E731
    assert pairs.touching(staff(square)) == ["GestureWords on NoteHead"]
    assert pairs.touching(staff(aside)) == []
