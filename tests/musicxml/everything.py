"""All that can be written as MusicXML is valid and read by others: demo, gallery, every sheet, a thousand files and
two hundred with parts. `make soak` names this file, which pytest does not collect by itself."""

from __future__ import annotations

from itertools import batched
from pathlib import Path

import pytest
from musicxml import exported, heard, readers

_GENERATED = list(batched(range(1000), 50))
_PARTS = list(batched(range(200), 50))


def _read(every: list[exported.Exported], folder: Path) -> None:
    found = [fault for one in every for fault in (*readers.invalid(one), *readers.undrawn(one))]
    found += [fault for one in every for fault in heard.differences(one, folder)]
    notes = sum(len(said.notes) for one in every for system in one.systems for said in system)
    print(f"\n{len(every)} documents, {notes} notes, {len(found)} faults")
    assert found == []


@pytest.mark.parametrize("path", [exported.DEMO, *exported.GALLERY], ids=lambda path: path.stem)
@pytest.mark.parametrize("pitches", ["written", "sounding"])
def test_files(path, pitches, tmp_path):
    _read(list(exported.of_file(path, snippets=True, pitches=pitches)), tmp_path)


@pytest.mark.parametrize("instrument", exported.INSTRUMENTS)
def test_sheets(instrument, tmp_path):
    _read([one for technique in exported.TECHNIQUES for one in exported.sheets(instrument, technique)], tmp_path)


@pytest.mark.parametrize("seeds", _GENERATED, ids=lambda seeds: str(seeds[0]))
def test_generated(seeds, tmp_path):
    _read([one for seed in seeds for one in exported.generated(seed)], tmp_path)


@pytest.mark.parametrize("seeds", _PARTS, ids=lambda seeds: str(seeds[0]))
def test_scores_and_parts(seeds, tmp_path):
    _read([one for seed in seeds for one in exported.generated_parts(seed)], tmp_path)


@pytest.mark.lilypond
@pytest.mark.parametrize("path", [exported.DEMO, *exported.GALLERY], ids=lambda path: path.stem)
def test_lilypond_engraves_them(path, tmp_path):
    pages = [one for one in exported.of_file(path) if not readers.stops_musicxml2ly(one)]
    assert [fault for one in pages for fault in readers.unread_by_lilypond(one, tmp_path)] == []
