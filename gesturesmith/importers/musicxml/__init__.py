"""Reads MusicXML, plain or compressed."""

from gesturesmith.importers.musicxml.reader import read
from gesturesmith.importers.musicxml.tree import NotMusicXmlError

__all__ = ["NotMusicXmlError", "read"]
