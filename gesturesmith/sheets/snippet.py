"""A gesture or passage as a cropped picture, with its footnotes below."""

from __future__ import annotations

from gesturesmith.backends.lilypond import EngravedMusic
from gesturesmith.lytext import LyText, code
from gesturesmith.model.piece import Settings
from gesturesmith.sheets import _score


def book(engraving: EngravedMusic, settings: Settings, *, output: str) -> LyText:
    """A `\\book` called `output` (a name we choose) with the cropped music."""
    music = engraving.music
    draft = _score.stamp(settings) if music.draft else ""
    notes = "\n".join(f"  {_score.note(n)}" for n in music.footnotes)
    below = f"\\gs-below-music {{\n{notes}\n}}" if notes else ""
    return code(
        f"""\\gsCropped
\\book {{
\\header {{ {_score.header(music.title or music.name, settings.composer or "")} }}
\\paper {{ \\gsSnippetPaper {_score.staff_size(settings)} }}
\\bookOutputName "{output}"
{_score.place_mark(music)}
\\markup \\gs-picture {{ {draft}
\\score {{
{_score.staff(music, settings, engraving.ly)}
{_score.layout(music, "Picture")}
}}
{below}
}}
}}
"""
    )
