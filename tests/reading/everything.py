"""Reads everything back: the demo, the gallery, the sheets of every technique on four instruments, all charts, a
thousand generated files. `make soak` names this file, which pytest does not collect by itself."""

from __future__ import annotations

from itertools import batched
from pathlib import Path

import pytest
from reading import generate, pages

from gesturesmith import instruments, techniques
from gesturesmith.source import Source

DOCS = Path(__file__).parent.parent.parent / "docs"
FILES = [DOCS / "demo" / "fog-signals.gesture", *sorted((DOCS / "gallery").glob("*.gesture"))]
INSTRUMENTS = ("horn", "trumpet", "trombone", "tuba")
GENERATED = range(1000)
PARTS = range(200)
_TOGETHER = 50  # files per document

pytestmark = pytest.mark.lilypond


def _read(job: pages.Job, folder: Path, what: str) -> None:
    if not job.books:  # a technique the instrument does not have
        return
    count = pages.read_job(job, folder)
    print(f"\n{what}: {count.pages} pages, {count.scores} scores, {count.notes} notes, {len(count.found)} faults")
    assert count.found == []


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
@pytest.mark.parametrize(
    "kind", ["pages", "concert", "notes", "exercises", "included", "moved", "in-company", "as-cues"]
)
def test_files(path, kind, tmp_path):
    source, folder, job = Source(path.name, path.read_text("utf-8")), path.parent, pages.Job()
    if kind == "pages":
        pages.add_file(job, source, folder, snippets=True)
    elif kind == "concert":
        pages.add_file(job, source, folder, pitches="sounding")
    elif kind == "notes":
        pages.add_notes(job, source, folder)
    elif kind == "exercises":
        pages.add_exercises(job, source, folder)
    else:
        pages.add_ily(
            job, source, folder, transposed=kind == "moved", company=kind == "in-company", cue=kind == "as-cues"
        )
    _read(job, tmp_path, f"{path.stem} {kind}")


@pytest.mark.parametrize("instrument", INSTRUMENTS)
@pytest.mark.parametrize("technique", techniques.names())
def test_sheets(instrument, technique, tmp_path):
    job = pages.Job()
    pages.add_graded(job, technique, instrument)
    _read(job, tmp_path, f"sheets {instrument} {technique}")


@pytest.mark.parametrize("instrument", instruments.names())
def test_charts(instrument, tmp_path):
    job = pages.Job()
    pages.add_charts(job, instrument)
    _read(job, tmp_path, f"charts {instrument}")


@pytest.mark.parametrize("seeds", list(batched(PARTS, _TOGETHER)), ids=lambda seeds: str(seeds[0]))
@pytest.mark.parametrize("pitches", ["written", "sounding"])
def test_scores_and_parts(seeds, pitches, tmp_path):
    job = pages.Job()
    for seed in seeds:
        pages.add_parts(job, Source(f"parts {seed}", generate.parts(seed)), draft=True, pitches=pitches)
    _read(job, tmp_path, f"parts {seeds[0]} to {seeds[-1]}, {pitches}")


@pytest.mark.parametrize("seeds", list(batched(GENERATED, _TOGETHER)), ids=lambda seeds: str(seeds[0]))
def test_passages_in_meters(seeds, tmp_path):
    job = pages.Job()
    for seed in seeds:
        pages.add_file(job, Source(f"generated {seed}", generate.file(seed)), draft=True)
    _read(job, tmp_path, f"generated {seeds[0]} to {seeds[-1]}")
