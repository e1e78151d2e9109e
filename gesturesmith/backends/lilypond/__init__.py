"""A score as LilyPond text. The only place that knows Abjad: to read an `EngravedMusic` costs nothing of it."""

from __future__ import annotations

from gesturesmith.backends.lilypond.marks import note_name
from gesturesmith.backends.lilypond.music import EngravedMusic
from gesturesmith.score.music import Music

__all__ = ["EngravedMusic", "engraved", "note_name"]


def engraved(music: Music) -> EngravedMusic:
    """The music with its LilyPond text."""
    from gesturesmith.backends.lilypond import voices

    return EngravedMusic(music=music, pieces=voices.pieces(music))
