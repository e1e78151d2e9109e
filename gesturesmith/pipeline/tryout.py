"""Try-out sheets: the questions for a player, engraved with boxes for the answers."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from gesturesmith import techniques
from gesturesmith.exercises.preparation import barred
from gesturesmith.exercises.tryout import Question
from gesturesmith.pipeline.naming import of_instrument
from gesturesmith.pipeline.sheet import line, numbered
from gesturesmith.pipeline.types import CompileResult
from gesturesmith.source import Source
from gesturesmith.values import frozen
from gesturesmith.wording import technique_title, together
from gesturesmith.wording import text as wording

if TYPE_CHECKING:
    from gesturesmith.model.piece import Settings

_STAFF = Fraction(6, 7)  # so that all the trials of a limit stand on one page


@frozen(kw_only=True)
class TryOutOptions:
    """The sheet to make: its questions, in order; the settings give instrument, wording and paper.

    name    a pattern for the file names instead of the instrument's name (see `naming`)
    """

    questions: tuple[Question, ...]
    settings: Settings
    name: str | None = None


def sheet_name(options: TryOutOptions) -> str:
    """The name of the sheet, and of the file for its answers."""
    return f"{of_instrument(options.name, options.settings)}-try-out"


def compile_try_out(sources: tuple[Source, ...], options: TryOutOptions) -> CompileResult:
    """One sheet; its trials are numbered throughout. Reads no source."""
    from gesturesmith.score.staves import alone
    from gesturesmith.sheets import document, tryout
    from gesturesmith.writers import Item

    settings = replace(options.settings, staff_mm=options.settings.staff_mm * _STAFF)
    asked, number = [], 0
    for question in options.questions:
        trials = []
        for trial in question.trials:
            number += 1
            engraving = line(barred((trial.case,), None, 1), settings).engraving
            trials.append(tryout.AskedTrial(number=number, engraving=engraving))
        asked.append(
            tryout.Asked(
                title=title(question, settings.wording),
                ask=together(question.family.ask[language] for language in settings.wording),
                trials=tuple(trials),
            )
        )
    name = sheet_name(options)
    sheet = tryout.TryOutSheet(
        instrument=together(settings.instrument.name_in(language) for language in settings.wording),
        asked=tuple(asked),
    )
    book = tryout.book(sheet, settings, output="tryout")
    musics = [trial.engraving.music for one in asked for trial in one.trials]
    item = Item(
        output="tryout",
        kind="page",
        place=PurePosixPath(name),
        name=name,
        title=together(wording("try-out", language) for language in settings.wording),
        excerpts=tuple(music.name for music in musics),
        systems=tuple(alone(music, settings) for music in numbered(musics)),
        book=book,
        document=document((book,)),
    )
    return CompileResult(reports=(), names=(name,), items=(item,))


def title(question: Question, languages: tuple[str, ...]) -> str:
    """What a question is about, with its register."""
    return together(_title(question, language) for language in languages)


def _title(question: Question, language: str) -> str:
    family = question.family
    register = wording(f"register-{question.register}", language) if question.register else ""
    named = technique_title(techniques.get(family.technique), language) if family.technique else ""
    if family.technique and not family.title:
        return ", ".join(filter(None, (named, register)))
    return family.title[language].replace("{register}", register).replace("{technique}", named)
