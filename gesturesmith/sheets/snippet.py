"""A gesture or passage as a cropped picture, with its footnotes below."""

from __future__ import annotations

from gesturesmith.backends.lilypond import EngravedMusic
from gesturesmith.lytext import LyText, code
from gesturesmith.model.piece import Settings
from gesturesmith.score.music import Footnote, Music
from gesturesmith.sheets import _score


def book(engraving: EngravedMusic, settings: Settings, *, output: str) -> LyText:
    """A `\\book` called `output` (a name we choose) with the cropped music."""
    music = engraving.music
    score = code(f"{_score.staff(music, settings, engraving.ly)}\n{_score.layout(music, 'Picture')}")
    return cropped(music, settings, score, music.footnotes, output=output, draft=bool(music.draft))


def cropped(
    music: Music, settings: Settings, score: LyText, footnotes: tuple[Footnote, ...], *, output: str, draft: bool
) -> LyText:
    """A `\\book` with a score, its layout included, as a picture, and footnotes below it."""
    stamp = _score.stamp(settings) if draft else ""
    notes = "\n".join(f"  {_score.note(n)}" for n in footnotes)
    below = f"\\gs-below-music {{\n{notes}\n}}" if notes else ""
    return code(
        f"""\\gsCropped
\\book {{
\\header {{ {_score.header(music.title or music.name, settings.composer or "")} }}
\\paper {{ \\gsSnippetPaper {_score.staff_size(settings)} }}
\\bookOutputName "{output}"
{_score.place_mark(music)}
\\markup \\gs-picture {{ {stamp}
\\score {{
{score}
}}
{below}
}}
}}
"""
    )
