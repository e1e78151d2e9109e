"""Sheets for a single technique, in levels: the lines are chosen from what the checker approves."""

from __future__ import annotations

from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from gesturesmith import techniques
from gesturesmith.exercises import graded
from gesturesmith.pipeline.naming import of_instrument
from gesturesmith.pipeline.sheet import fitting, item, line, warm_up_music
from gesturesmith.pipeline.types import CompileResult
from gesturesmith.source import Source
from gesturesmith.values import frozen
from gesturesmith.wording import said, technique_title, together

if TYPE_CHECKING:
    from gesturesmith.lilypond import LilyPond
    from gesturesmith.model.piece import Settings
    from gesturesmith.sheets.exercises import ExerciseLine, Sheet
    from gesturesmith.writers import Item

LEVELS = graded.LEVELS_OF_SHEETS
_METER = (4, 4)


@frozen(kw_only=True)
class GradedOptions:
    """The sheets to make.

    technique   its key
    settings    instrument, wording and paper
    levels      1 (the easiest) to 5
    name        a pattern for the file names instead of the instrument's name (see `naming`)
    lilypond    used to count the lines that fit a page; None if there is none
    """

    technique: str
    settings: Settings
    levels: tuple[int, ...] = LEVELS
    name: str | None = None
    lilypond: LilyPond | None = None


def compile_graded(sources: tuple[Source, ...], options: GradedOptions) -> CompileResult:
    """A sheet for each level that has lines; `names` are those of the sheets. Reads no source."""
    technique = techniques.get(options.technique)
    found = graded.playable(technique, options.settings.instrument)
    items = tuple(
        _item(options, level, lines) for level in options.levels if (lines := graded.of_level(found, level))
    )
    return CompileResult(reports=(), names=tuple(i.name for i in items), items=items)


def _item(options: GradedOptions, level: int, lines: tuple[tuple[graded.Graded, ...], ...]) -> Item:
    from gesturesmith.sheets.exercises import Sheet

    settings = options.settings
    technique = techniques.get(options.technique)
    engraved = tuple(line(tuple(g.case for g in climb), settings, _METER, 1) for climb in lines)
    before = warm_up_music(settings)

    def sheet(count: int) -> Sheet:
        return Sheet(
            title=together(technique_title(technique, language) for language in settings.wording),
            subtitle=said("level", settings.wording).replace("{level}", str(level)),
            warm_up=before,
            lines=_even(engraved, count),
        )

    count = fitting(sheet, len(engraved), settings, options.lilypond)
    return item(sheet(count), settings, PurePosixPath(sheet_name(options, level)), f"level{level}")


def sheet_name(options: GradedOptions, level: int) -> str:
    """The name of the sheet of a level."""
    return f"{of_instrument(options.name, options.settings)}-{options.technique}-{level}"


def _even(lines: tuple[ExerciseLine, ...], count: int) -> tuple[ExerciseLine, ...]:
    """A number of lines in even steps, including the first and the last."""
    last = len(lines) - 1
    return tuple(lines[round(last * n / max(1, count - 1))] for n in range(count))
