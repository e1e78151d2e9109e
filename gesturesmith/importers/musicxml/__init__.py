"""Reads MusicXML, plain or compressed."""

from gesturesmith.importers.musicxml.reader import NotMusicXml, read

__all__ = ["NotMusicXml", "read"]
