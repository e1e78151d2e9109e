"""The page of a try-out sheet: numbered gestures around each limit, with boxes for a player's answers."""

from __future__ import annotations

from dataclasses import replace

from gesturesmith.backends.lilypond import EngravedMusic
from gesturesmith.lytext import LyText, code, joined, quoted
from gesturesmith.model.piece import Settings
from gesturesmith.sheets import _score
from gesturesmith.sheets._head import PageHeader, opening
from gesturesmith.values import frozen
from gesturesmith.wording import said

ANSWERS = ("fine", "care", "no")


@frozen(kw_only=True)
class AskedTrial:
    """One numbered gesture."""

    number: int
    engraving: EngravedMusic


@frozen(kw_only=True)
class Asked:
    """The trials of one limit: its heading, what the player does, and the gestures, the easiest first."""

    title: str
    ask: str
    trials: tuple[AskedTrial, ...]


@frozen(kw_only=True)
class TryOutSheet:
    """The contents of a try-out sheet. `instrument` is its name in the languages of the page."""

    instrument: str
    asked: tuple[Asked, ...]


def book(sheet: TryOutSheet, settings: Settings, *, output: str) -> LyText:
    """A `\\book` called `output` (a name we choose)."""
    words = settings.wording
    head = PageHeader(title=said("try-out", words), subtitle=sheet.instrument)
    musics = [trial.engraving.music for asked in sheet.asked for trial in asked.trials]
    cautions = [*dict.fromkeys(c for music in musics for c in music.cautions), said("caution-decide", words)]
    blanks = " ".join(quoted(said(f"try-out-{key}", words)) for key in ("player", "date"))
    parts = [
        opening(head, output, "gsTryOutPaper", settings),
        code(f"\\markup \\gs-blanks {blanks}"),
        code(f"\\markup \\gs-instruction {quoted(said('try-out-how', words))}"),
        *(code(f"\\markup \\gs-caution {quoted(text)}") for text in cautions),
    ]
    for asked in sheet.asked:
        parts.append(code(f"\\markup \\gs-asked {quoted(asked.title)} {quoted(asked.ask)}"))
        rows = [asked.trials[n : n + 2] for n in range(0, len(asked.trials), 2)]
        parts += [joined((code("\\noPageBreak"), _row(row, settings))) for row in rows]
    heading = quoted(said("heading-remarks", words))
    ruled = code(f"\\markup \\column {{ \\vspace #1 \\gs-heading {heading} \\gs-ruled #2 }}")
    return joined((*parts, code("\\noPageBreak"), ruled, code("}\n")))


def _row(trials: tuple[AskedTrial, ...], settings: Settings) -> LyText:
    """One or two gestures side by side."""
    cells = "\n".join(_trial(trial, settings) for trial in trials)
    return code(f"\\markup \\gs-trials {{\n{cells}\n}}")


def _trial(trial: AskedTrial, settings: Settings) -> LyText:
    """A gesture below its number and boxes."""
    boxes = " ".join(quoted(said(f"answer-{answer}", settings.wording)) for answer in ANSWERS)
    music = replace(trial.engraving.music, last_bar="|.")
    return code(
        f"""\\column {{ \\gs-trial {quoted(f"{trial.number}.")} {boxes} \\vspace #0.35
{_score.place_mark(music)}
\\score {{
{_score.staff(music, settings, trial.engraving.unmarked)}
\\layout {{ \\gsTrial{"InTime" if music.free else ""} }}
}} }}"""
    )
