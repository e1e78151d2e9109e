"""The page of an exercise sheet: warm-up, numbered lines with preparation and rest, cautions, space for remarks."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from gesturesmith.backends.lilypond import EngravedMusic, note_name
from gesturesmith.exercises.preparation import Preparation
from gesturesmith.lytext import LyText, code, joined, quoted
from gesturesmith.model.piece import Settings
from gesturesmith.rules.base import Case
from gesturesmith.score.music import Music
from gesturesmith.sheets import _score
from gesturesmith.sheets._head import PageHeader, opening
from gesturesmith.sheets._score import NOTHING
from gesturesmith.sheets._signs import SIGNS, Use
from gesturesmith.values import frozen
from gesturesmith.wording import said

_RULED = 3  # ruled lines for remarks
_TOGETHER = code("\\noPageBreak")


@frozen(kw_only=True)
class ExerciseLine:
    """One line to practise.

    engraving    the exercise, within its repeat signs
    tempo        quarter notes per minute; None if nothing is counted in beats
    preparation  plain notes to play before it, or None
    rest_s       seconds to rest after it
    signs        keys of the signs in it that a legend explains
    aim          words above it, "" for none; tempi: to tick off beside them, in quarters a minute
    """

    engraving: EngravedMusic
    tempo: Fraction | None
    preparation: Preparation | None
    rest_s: int
    signs: tuple[str, ...] = ()
    aim: str = ""
    tempi: tuple[int, ...] = ()


@frozen(kw_only=True)
class Sheet:
    """The contents of a sheet.

    title, subtitle   as printed; subtitle "" for none
    instruction       by the composer or teacher, "" for none
    warm_up           the line before the first, or None; cool_down: the line after the last
    full              whether lines are as wide as the page
    several           whether it may have several pages
    """

    title: str
    subtitle: str = ""
    instruction: str = ""
    warm_up: EngravedMusic | None
    lines: tuple[ExerciseLine, ...]
    cool_down: EngravedMusic | None = None
    full: bool = False
    several: bool = False


def book(sheet: Sheet, settings: Settings, *, output: str) -> LyText:
    """A `\\book` called `output` (a name we choose)."""
    paper = "gsExercisePages" if sheet.several else "gsExercisePaper"
    start = opening(_head(sheet, settings), output, paper, settings)
    return joined((start, _blanks(settings.wording), body(sheet, settings), code("}\n")))


def body(sheet: Sheet, settings: Settings) -> LyText:
    """What is below the head of a sheet."""
    musics = [line.engraving.music for line in sheet.lines]
    parts = [_paragraph(text, "gs-caution") for text in _cautions(musics, settings)]
    legend = _legend(sheet, settings)
    parts += [legend] if legend is not None else []
    parts += [_paragraph(text, "gs-instruction") for text in (sheet.instruction,) if text]
    texts = list(dict.fromkeys(f.text for music in musics for f in music.footnotes))
    numbers = {text: str(n) for n, text in enumerate(texts, start=1)}
    if len(texts) == 1:
        parts.append(_paragraph(texts[0], "gs-paragraph"))
    else:
        parts += [code(f"\\markup \\gs-note {quoted(numbers[text])} {quoted(text)}") for text in texts]
    if sheet.warm_up is not None:
        parts.append(_aside(sheet.warm_up, "warm-up", settings))
    marked: set[str] = set()
    for number, line in enumerate(sheet.lines, start=1):
        before = sheet.lines[number - 2] if number > 1 else None
        ly = _marked(line.engraving, numbers if len(texts) > 1 else {}, marked)
        if number == len(sheet.lines) > 1:  # never alone on a page
            parts.append(_TOGETHER)
        parts.append(_numbered(number, line, before, ly, settings, full=sheet.full))
    if sheet.cool_down is not None:
        parts.append(_TOGETHER)
        parts.append(_aside(sheet.cool_down, "cool-down", settings))
    parts.append(_remarks(settings.wording))
    return joined(parts)


def signs_in(case: Case, music: Music, settings: Settings) -> tuple[str, ...]:
    """The keys of the signs of a line, apart from those of techniques."""
    use = Use(case=case, music=music, settings=settings)
    # A sign with marks of its own is there where one of them is printed.
    there = (s for s in SIGNS if s.used(use) and (not s.marks or use.has(*s.marks)))
    return tuple(sign.key for sign in there)


def _legend(sheet: Sheet, settings: Settings) -> LyText | None:
    """What the signs of the lines mean, once each."""
    keys = dict.fromkeys(key for line in sheet.lines for key in line.signs)
    means = settings.instrument.means
    rows = (said(f"remark-{key}", settings.wording, means) for key in keys)
    told = " ".join(rows)
    return _paragraph(told, "gs-caution") if told else None


def _head(sheet: Sheet, settings: Settings) -> PageHeader:
    return PageHeader(
        title=sheet.title,
        subtitle=sheet.subtitle,
        left=settings.part_name(settings.wording),
        right=settings.composer or "",
    )


def _blanks(languages: tuple[str, ...]) -> LyText:
    """Where player and date are written."""
    player, date = (quoted(said(f"try-out-{key}", languages)) for key in ("player", "date"))
    return code(f"\\markup \\gs-blanks {player} {date}")


def _paragraph(text: str, command: str) -> LyText:
    return code(f"\\markup \\{command} {quoted(text)}")


def _cautions(musics: list[Music], settings: Settings) -> tuple[str, ...]:
    """The cautions, and that player and teacher decide; on every sheet, because practising always tires."""
    found = list(dict.fromkeys(c for music in musics for c in music.cautions))
    student = settings.instrument.student
    if student is not None and student.braces:
        found.append(said("term-braces", settings.wording))
    return (*found, said("caution-decide", settings.wording))


def _marked(engraving: EngravedMusic, numbers: dict[str, str], marked: set[str]) -> LyText:
    """The music with marks that refer to the texts at the head, each only at its first note on the sheet."""
    footnotes = engraving.music.footnotes
    fresh = {f.number: numbers[f.text] for f in footnotes if numbers and f.text not in marked}
    marked.update(f.text for f in footnotes)
    if len(fresh) < len(footnotes):
        return engraving.unmarked
    return engraving.renumbered(fresh).ly


def _aside(engraving: EngravedMusic, key: str, settings: Settings) -> LyText:
    """The warm-up or cool-down, under its heading."""
    title = quoted(said(key, settings.wording))
    return code(
        f"""\\score {{
{_score.staff(replace(engraving.music, last_bar="|."), settings, engraving.unmarked)}
\\header {{ piece = \\markup \\gs-heading {title} }}
\\layout {{ \\gsWarmUp }}
}}"""
    )


def _numbered(
    number: int, line: ExerciseLine, before: ExerciseLine | None, ly: LyText, settings: Settings, *, full: bool
) -> LyText:
    """A line: number, preparation if new, tempo if changed, music, rest."""
    label = code(f"\\gs-number {quoted(f'{number}.')}")
    new = before is None or line.preparation != before.preparation
    prepared = NOTHING
    if line.preparation is not None and new:
        prepared = _preparation(line.preparation, said("preparation", settings.wording) if number == 1 else "")
    tempo = line.tempo if before is None or line.aim or line.tempo != before.tempo else None
    music = replace(line.engraving.music, tempo=tempo, last_bar="|.")
    played = joined((ly, _rest(line, settings)))
    aim = f"\\markup \\gs-aim {quoted(line.aim)} {_tempi(line.tempi)}\n\\noPageBreak\n" if line.aim else ""
    return code(
        f"""{aim}{_score.place_mark(music)}
\\score {{
{_score.staff(music, settings, played, label, prepared)}
{_score.layout(music, "NumberedFull" if full else "Numbered")}
}}"""
    )


def _tempi(tempi: tuple[int, ...]) -> str:
    return "#'(" + " ".join(str(tempo) for tempo in tempi) + ")"


def _preparation(prepared: Preparation, word: str) -> LyText:
    """The small notes of a preparation, with the word above the first time."""
    notes = [f"{note_name(note)}16" for note in prepared.notes]
    room = f" \\gsPreparedRoom {quoted(word)} {len(notes)}" if word else ""
    if prepared.tube:
        notes[0] += f" \\gsFingering {quoted(prepared.tube)}"
    if word:
        notes[0] += f" \\gsPrepared {quoted(word)}"
    return code(f"\\gsPreparation {{ {' '.join(notes)}{room} }}")


def _rest(line: ExerciseLine, settings: Settings) -> LyText:
    text = said("rest-after", settings.wording).replace("{seconds}", str(line.rest_s))
    # Without bars there are no whole-bar rests: use an ordinary rest.
    meter = line.engraving.music.meter
    rest = "r1" if meter is None else f"R1*{meter[0]}/{meter[1]}"
    return code(f"\\gsRest {quoted(text)} {rest}\\fermata")


def _remarks(languages: tuple[str, ...]) -> LyText:
    title = quoted(said("heading-remarks", languages))
    # They are never alone on a page.
    return code(f"\\noPageBreak\n\\markup \\column {{ \\vspace #1 \\gs-heading {title} \\gs-ruled #{_RULED} }}")
