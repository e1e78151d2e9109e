"""Pictures of engraved music."""

from __future__ import annotations

from pathlib import PurePosixPath
from typing import TYPE_CHECKING

if TYPE_CHECKING:  # `check` needs neither Abjad nor LilyPond, nor files
    from gesturesmith.backends.lilypond import EngravedMusic
    from gesturesmith.model.piece import Settings
    from gesturesmith.writers import Item


def snippet(engraving: EngravedMusic, output: str, settings: Settings, folder: PurePosixPath) -> Item:
    """One gesture or passage as a picture; `folder`: its folder."""
    from gesturesmith.pipeline.naming import file_name
    from gesturesmith.score.staves import alone
    from gesturesmith.sheets import document, ily
    from gesturesmith.sheets import snippet as page
    from gesturesmith.writers import Item

    music = engraving.music
    book = page.book(engraving, settings, output=output)
    return Item(
        output=output,
        kind="snippet",
        place=folder / file_name(music.name),
        name=music.name,
        title=music.title or "",
        author=settings.composer or "",
        description=music.description,
        excerpts=(music.name,),
        systems=(alone(music, settings),),
        book=book,
        document=document((book,)),
        ily=ily.text(engraving, settings),
    )
