"""Programs of others read what is written, and find what the file asks for. `everything.py` has them read all."""

from __future__ import annotations

import pytest
from musicxml import exported, heard, readers
from sampling import whole

_PAGES = ("signs", "graces", "rhythm", "boxes", "pitches", "parts-two-horns")
_MADE = {path.stem: path for path in (exported.DEMO, *exported.GALLERY)}


@pytest.fixture(scope="module")
def every() -> list[exported.Exported]:
    """A sample of everything, written once for all programs."""
    made = [*exported.of_file(exported.DEMO, snippets=True)]
    for stem in _PAGES:
        made += exported.of_file(_MADE[stem])
    made += exported.of_file(_MADE["parts-two-horns"], pitches="sounding")
    for seed in range(4):
        made += exported.generated(seed)
    for seed in range(2):
        made += exported.generated_parts(seed)
    return made


def test_it_is_valid(every):
    assert len(every) > 30
    assert [fault for one in every for fault in readers.invalid(one)] == []


def test_music21_finds_every_note_at_its_pitch_and_time(every, tmp_path):
    assert sum(len(said.notes) for one in every for system in one.systems for said in system) > 800
    assert [fault for one in every for fault in heard.differences(one, tmp_path)] == []


def test_verovio_draws_every_head(every):
    """Of invented scores with parts it draws one, since each takes it seconds."""
    few = [one for one in every if not one.name.startswith("parts ")]
    few += [one for one in every if one not in few][:1]
    assert [fault for one in few for fault in readers.undrawn(one)] == []


@whole
@pytest.mark.lilypond
def test_musicxml2ly_writes_what_lilypond_engraves(every, tmp_path):
    pages = [one for one in every if "fog-signals.gesture" in one.name and "(page)" in one.name]
    pages += [one for one in every if "two-horns.gesture" in one.name][:1]
    assert len(pages) == 2
    assert [fault for one in pages for fault in readers.unread_by_lilypond(one, tmp_path)] == []
