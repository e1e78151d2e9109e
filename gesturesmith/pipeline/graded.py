"""Sheets for a single technique, in levels: the lines are chosen from what the checker approves."""

from __future__ import annotations

from dataclasses import replace
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from gesturesmith import techniques
from gesturesmith.exercises import frame, graded, levels
from gesturesmith.exercises.preparation import barred
from gesturesmith.pipeline.naming import of_instrument
from gesturesmith.pipeline.sheet import fitting, item, line, plain_music, trying
from gesturesmith.pipeline.types import CompileResult
from gesturesmith.source import Source
from gesturesmith.values import frozen
from gesturesmith.wording import said, technique_title, together

if TYPE_CHECKING:
    from gesturesmith.lilypond import LilyPond, LilyPondPool
    from gesturesmith.model.piece import Settings
    from gesturesmith.sheets.exercises import ExerciseLine, Sheet
    from gesturesmith.writers import Item

LEVELS = graded.LEVELS_OF_SHEETS
_PLAIN_FIRST = 2  # the last level whose lines are first played without the technique, with all fingerings shown


@frozen(kw_only=True)
class GradedOptions:
    """The sheets to make.

    technique   its key
    settings    instrument, wording and paper
    levels      1 (the easiest) to 5
    seed        another number gives other lines, the same number the same
    name        a pattern for the file names instead of the instrument's name (see `naming`)
    lilypond    used to count the lines that fit a page; None if there is none
    """

    technique: str
    settings: Settings
    levels: tuple[int, ...] = LEVELS
    seed: int = 0
    name: str | None = None
    lilypond: LilyPond | None = None


def compile_graded(sources: tuple[Source, ...], options: GradedOptions) -> CompileResult:
    """A sheet for each level that has lines; `names` are those of the sheets. Reads no source."""
    technique = techniques.get(options.technique)
    with trying(options.lilypond) as pool:
        found = graded.graded(technique, options.settings.instrument, options.seed, max(options.levels))
        items = tuple(_item(options, level, found[level], pool) for level in options.levels if level in found)
    return CompileResult(reports=(), names=tuple(i.name for i in items), items=items)


def _item(options: GradedOptions, number: int, lines: tuple[graded.Graded, ...], pool: LilyPondPool | None) -> Item:
    from gesturesmith.sheets.exercises import Sheet

    technique = techniques.get(options.technique)
    level = levels.numbered()[number - 1]
    first = number <= _PLAIN_FIRST
    settings = options.settings
    if first and technique.bell_hand:
        settings = replace(settings, fingerings="all")  # the hand changes them
    engraved = tuple(
        line(barred((one.case,), one.meter, level.times, key=one.asked.key), settings) for one in lines
    )
    before = plain_music(frame.before(technique, settings.instrument, level), options.settings)
    after = plain_music(frame.after(technique, settings.instrument, level), options.settings)
    plain_first = first and technique.pitched == "exact" and technique.layer != "none"

    def sheet(count: int) -> Sheet:
        return Sheet(
            title=together(technique_title(technique, language) for language in settings.wording),
            subtitle=said("level", settings.wording).replace("{level}", str(number)),
            instruction=said("plain-first", settings.wording) if plain_first else "",
            warm_up=before,
            lines=_even(engraved, count),
            cool_down=after,
            full=True,
        )

    count = fitting(sheet, len(engraved), settings, pool)
    return item(sheet(count), settings, PurePosixPath(sheet_name(options, number)), f"level{number}")


def sheet_name(options: GradedOptions, level: int) -> str:
    """The name of the sheet of a level."""
    return f"{of_instrument(options.name, options.settings)}-{options.technique}-{level}"


def _even(lines: tuple[ExerciseLine, ...], count: int) -> tuple[ExerciseLine, ...]:
    """A number of lines in even steps, including the first and the last."""
    last = len(lines) - 1
    return tuple(lines[round(last * n / max(1, count - 1))] for n in range(count))
