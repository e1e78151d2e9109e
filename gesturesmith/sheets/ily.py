"""The music of one gesture as a variable, for a composer's own score."""

from __future__ import annotations

from gesturesmith.backends.lilypond import EngravedMusic
from gesturesmith.lytext import LyText, code, comment, joined, quoted, variable
from gesturesmith.model.piece import Settings
from gesturesmith.score.music import Footnote
from gesturesmith.sheets import _score
from gesturesmith.sheets._tempo import tempo_number
from gesturesmith.sheets._timeline import graces, key, timeline


def text(engraving: EngravedMusic, settings: Settings) -> LyText:
    """A file that defines `"gesture-NAME"` and preserves the note-name language of the score that includes it."""
    music = engraving.music
    name = variable(music.name)
    changes = timeline(music, upper=True, waits=graces(music))
    beside = variable(music.name, "changes")
    used = f"{{ \\{name} }}" if changes is None else f"<< \\{name} \\{beside} >>"
    remarks = [comment(music.description), comment(f"In a score:  \\new Staff {used}")]
    if music.staff_lines == 3:
        remarks.append(comment("It stands on three lines:  \\new Staff \\with { \\gsThreeLines }"))
    if music.meter is not None:
        remarks.append(comment(f"It is written for \\time {music.meter[0]}/{music.meter[1]}"))
    if music.pickup:
        remarks.append(comment(f"It begins with \\partial 1*{music.pickup / 4}"))
    if music.key is not None:
        remarks.append(comment(f"It is written with {key(music.key)}"))
    if music.tempo is not None:
        remarks.append(comment(f"Tempo: quarter note = {tempo_number(music.tempo)}"))
    if music.footnotes:
        remarks.append(comment("Footnotes, numbered through the score; after it \\gsFootnotes prints them:"))
    remarks += [comment(f"{n.number}  {n.text}") for n in music.footnotes]
    back = f'\n\\clef "{music.clef}"' if music.last_clef != music.clef else ""
    return joined(
        (
            code('\\version "2.24.0"'),
            code('\\include "gesturesmith.ily"'),
            *remarks,
            code("\\gsKeepNoteNames"),
            code('\\language "english"'),
            _score.place_mark(music),
            code(
                f"{name} = \\absolute {{\n{engraving.marked(_mark)}{back}\n}}"
            ),  # also within a \relative of the score
            *([code(f"{beside} = {changes}")] if changes is not None else []),
            code("\\gsRestoreNoteNames\n"),
        )
    )


def _mark(footnotes: tuple[Footnote, ...]) -> LyText:
    return code(f"\\gsNote #'({' '.join(quoted(f.text) for f in footnotes)})")
