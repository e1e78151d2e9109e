"""A score as MusicXML 4.0, with the standard library alone."""

from __future__ import annotations

from gesturesmith.backends.musicxml.score import lacks, musicxml

__all__ = ["lacks", "musicxml"]
