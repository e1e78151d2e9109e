"""What is written and read back by ourselves is the same music: each gesture and passage, exported, taken from its
document as a gesture file, and compared with the first.

What does not come back is on the MusicXML page of the docs: heights become pitches, techniques have the names that
words and signs of a score can have, and two voices are two players."""

from __future__ import annotations

from pathlib import Path

import pytest
from musicxml import exported
from reading import generate, says

from gesturesmith import writers
from gesturesmith.importers.excerpt import excerpt
from gesturesmith.importers.files import read_score
from gesturesmith.importers.notated import NotatedScore
from gesturesmith.model.reading import read
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

_WRITER = writers.get("musicxml")
_FILES = ("fog-signals", "graces", "rhythm", "signs", "pitches")
_SEEDS = range(6)


def sources() -> list[tuple[Source, Path | None]]:
    made = {path.stem: path for path in (exported.DEMO, *exported.GALLERY)}
    found = [(Source(made[stem].name, made[stem].read_text("utf-8")), made[stem].parent) for stem in _FILES]
    return [*found, *((Source(f"generated {seed}", generate.file(seed)), None) for seed in _SEEDS)]


def back(data: bytes, folder: Path) -> says.Said | None:
    """The music of a document; None if it is of two players."""
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
    (passage,) = reading.piece.passages
    return says.of_passage(passage)


def shown(said: says.Said) -> list[tuple]:
    """When each note comes, what it sounds if it has a pitch, whether it is a grace note or ends a line."""
    return [
        (n.at, n.spelling.pitch_cents if n.spelling is not None else None, bool(n.grace), n.stops)
        for n in said.notes
    ]


@pytest.mark.parametrize(("source", "folder"), sources(), ids=lambda one: getattr(one, "name", ""))
def test_the_same_notes_come_back(source, folder, tmp_path):
    piece = read(source, folder=folder).piece
    gestures, passages = ({one.name: one for one in some} for some in (piece.gestures, piece.passages))
    notes = 0
    for item in compile_text(source, Options(folder=folder, draft=True)).items:
        if item.kind != "snippet":
            continue
        name, heights = item.name, piece.settings.heights
        said = (
            says.of_gesture(gestures[name], heights=heights)
            if name in gestures
            else says.of_passage(passages[name], heights=heights)
        )
        found = back(_WRITER.finish(item, b""), tmp_path)
        if found is None:
            assert any(note.sung for note in said.notes), name
            continue
        want, have = shown(said), shown(found)
        # A height comes back as the pitch at its place.
        for number, (asked, got) in enumerate(zip(want, have, strict=True), start=1):
            pitch = got[1] if asked[1] is not None else None
            assert (got[0], pitch, *got[2:]) == asked, f"{name}, note {number}"
        notes += len(want)
    assert notes > 10
