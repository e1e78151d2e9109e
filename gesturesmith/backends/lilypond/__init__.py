"""A score as LilyPond text. Abjad is used only here, and reading an `EngravedMusic` does not import it."""

from __future__ import annotations

from gesturesmith.backends.lilypond.marks import note_name
from gesturesmith.backends.lilypond.music import EngravedMusic
from gesturesmith.lytext import LyText
from gesturesmith.score.music import Music

__all__ = ["EngravedMusic", "engraved", "note_name", "without_text"]


def engraved(music: Music) -> EngravedMusic:
    """The music with its LilyPond text."""
    from gesturesmith.backends.lilypond import voices

    return EngravedMusic(music=music, pieces=voices.pieces(music))


def without_text(music: Music) -> EngravedMusic:
    """The music alone, for a run whose formats read no LilyPond text: without Abjad, it takes half the time."""
    return EngravedMusic(music=music, pieces=(LyText(""),) * (len(music.footnote_marks) + 1))
