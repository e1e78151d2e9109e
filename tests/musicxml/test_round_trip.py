"""Passages written and read back are the same music, bar after bar: every note at its time and pitch, through ties
and over bar lines. `importers/test_round_trip.py` compares gestures, with all that is asked of them."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from musicxml import exported
from reading import generate, says
from sampling import sample

from gesturesmith import writers
from gesturesmith.importers.excerpt import excerpt
from gesturesmith.importers.files import read_score
from gesturesmith.importers.notated import NotatedScore
from gesturesmith.model.reading import read
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

_WRITER = writers.get("musicxml")
# The last bars of two are incomplete, with notes tied into them; the second has a pickup and changes of tempo. The
# third has a trill and a tremolo in one phrase. In the others tempo or key change under ties and inside bars.
_SEEDS = (2, 3, 39, *sample((12, 21, 30, 57, 66), 5))
_FILES = ("fog-signals", "graces", "rhythm", "together")


def sources() -> list[tuple[Source, Path]]:
    made = {path.stem: path for path in (exported.DEMO, *exported.GALLERY)}
    generated = [(Source(f"generated {seed}", generate.file(seed)), made[_FILES[0]].parent) for seed in _SEEDS]
    named = [(Source(made[stem].name, made[stem].read_text("utf-8")), made[stem].parent) for stem in _FILES]
    return generated + named


def back(data: bytes, folder: Path) -> list[tuple] | None:
    """The notes of a document; None if it is of two players."""
    path = folder / "back.musicxml"
    path.write_bytes(data)
    score = read_score(str(path))
    assert isinstance(score, NotatedScore), score
    taken = excerpt(score, range(len(score.bars)), name="back")
    assert taken is not None
    reading = read(Source("back", taken.text))
    assert reading.errors == (), taken.text
    if reading.piece is None:
        return None
    # A change of tempo or meter begins another passage.
    made, start = [], Fraction(0)
    for passage in reading.piece.passages:
        said = says.of_passage(passage)
        made += [(at if at is None else at + start, *more) for at, *more in shown(said)]
        start += said.length
    return made


def shown(said: says.Said) -> list[tuple]:
    """When each note comes, what it sounds if it has a pitch, whether it is a grace note or ends a line."""
    return [
        (n.at, n.spelling.pitch_cents if n.spelling is not None else None, bool(n.grace), n.stops)
        for n in said.notes
    ]


@pytest.mark.parametrize(("source", "folder"), sources(), ids=lambda one: getattr(one, "name", ""))
def test_the_same_notes_come_back(source, folder, tmp_path):
    piece = read(source, folder=folder).piece
    passages = {one.name: one for one in piece.passages}
    notes = 0
    for item in compile_text(source, Options(folder=folder, draft=True)).items:
        if item.kind != "snippet" or item.name not in passages:
            continue
        said = says.of_passage(passages[item.name], heights=piece.settings.heights)
        found = back(_WRITER.finish(item, b""), tmp_path)
        if found is None:
            assert any(note.sung for note in said.notes), item.name
            continue
        want, have = shown(said), found
        # A height comes back as the pitch at its place.
        for number, (asked, got) in enumerate(zip(want, have, strict=True), start=1):
            pitch = got[1] if asked[1] is not None else None
            assert (got[0], pitch, *got[2:]) == asked, f"{item.name}, note {number}"
        notes += len(want)
    assert notes > 5
