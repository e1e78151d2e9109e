"""A text, its file and its journal."""

from __future__ import annotations

from pathlib import Path

import pytest

from gesturesmith.live.documents import Document
from gesturesmith.live.journal import Journal

TEXT = 'instrument: horn\npitches: written\ntempo: 72\n\ngesture beacon "Beacon"\n  contour: G4\n  lasts: 2 beats\n'
WINDOW, OTHER = "0" * 16, "1" * 16


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "piece" / "study.gesture"
    path.parent.mkdir()
    path.write_text(TEXT)
    return path


@pytest.fixture
def journal(tmp_path: Path) -> Journal:
    made = Journal(tmp_path / "state" / "journal")
    assert made.problem == ""
    return made


@pytest.fixture
def document(file: Path, journal: Journal) -> Document:
    return Document(file, journal)
