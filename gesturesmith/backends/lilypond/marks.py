"""Marks at notes as LilyPond text: each type of mark becomes a command of the stencils."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import assert_never

from gesturesmith.kinds import AttackShape, HeadShape, ScriptSign
from gesturesmith.lytext import LyText, code, quoted
from gesturesmith.score.heads import Head, decimal
from gesturesmith.score.marks import (
    BandEnd,
    BandStart,
    Bend,
    BreathSign,
    Cents,
    DynamicLevel,
    Edge,
    Fingering,
    Flutter,
    FootnoteMark,
    FrameEnd,
    FrameStart,
    FrameWords,
    GoesOnEnd,
    GoesOnStart,
    HandTurnEnd,
    HandTurnStart,
    LengthEnd,
    LengthStart,
    LineEnd,
    LineStart,
    LineStyle,
    Mark,
    RepeatStrokes,
    Script,
    SecondNote,
    Small,
    SpanEnd,
    SpanStart,
    SungHead,
    Syllable,
    TechniqueLabel,
    TechniqueTurnEnd,
    TechniqueTurnStart,
    TrillSign,
    Waves,
    Words,
)
from gesturesmith.score.rhythm import GRACE_VALUE, GRACES_VALUE
from gesturesmith.units import Spelling

# Stands for a footnote's mark until a page fills it in. `quoted` never lets this character through.
FOOTNOTE_MARK = "\0"
# Levels with a LilyPond command of their own since 2.24; the others are printed by `\gsLevel`.
LILYPONDS_LEVELS = frozenset(("ppp", "pp", "p", "mp", "mf", "f", "ff", "fff", "sf", "sfz", "fp", "sfp", "rfz"))
FAN_DIRECTIONS: dict[AttackShape, str] = {"accelerating": "RIGHT", "slowing": "LEFT"}
_BEND_DEPTH = -2  # half staff spaces below the note: a third, as a sign and not a measure
_ALTERS = {
    Fraction(-2): "ff",
    Fraction(-3, 2): "tqf",
    Fraction(-1): "f",
    Fraction(-1, 2): "qf",
    Fraction(0): "",
    Fraction(1, 2): "qs",
    Fraction(1): "s",
    Fraction(3, 2): "tqs",
    Fraction(2): "ss",
}
_SHAPES: dict[HeadShape, str] = {
    "x": r"\gsX",
    "diamond": r"\gsDiamond",
    "slash": r"\gsSlash",
    "ghost": r"\gsGhost",
    "triangle-up": r"\gsTriangleUp",
    "triangle-down": r"\gsTriangleDown",
}
_SCRIPTS: dict[ScriptSign, str] = {
    "stopped": r"\gsPlus",
    "half-stopped": r"\gsHalfStopped",
    "open": r"\gsOpen",
    "double-dots": r"\gsDots #2",
    "triple-dots": r"\gsDots #3",
    "beyond-up": r"\gsBeyond #UP",
    "beyond-down": r"\gsBeyond #DOWN",
}
_STYLES: dict[LineStyle, str] = {
    "straight": "plain",
    "wavy": "wavy",
    "broken": "broken",
    "dotted": "dotted",
    "arrow": "plain",
}
_PLACE = "b'"  # if only the height counts, any note will do


def grace_beats(count: int) -> Fraction:
    """The length LilyPond gives to this many grace notes before a note, outside the time of the music."""
    return count * (GRACE_VALUE if count == 1 else GRACES_VALUE)


def note_name(spelling: Spelling) -> str:
    """`F#^4` in LilyPond's English note names: `ftqs'`. Ignores cents and eighth tones."""
    spelling = spelling.nearest
    octave = "'" * (spelling.octave - 3) if spelling.octave >= 3 else "," * (3 - spelling.octave)
    return f"{spelling.letter.lower()}{_ALTERS[spelling.alter]}{octave}"


def _pitch(spelling: Spelling) -> str:
    """The same as an argument, eighth tones included."""
    if spelling.alter.denominator != 4:
        return note_name(spelling)
    octave, step = divmod(spelling.steps, 7)
    return f"#(ly:make-pitch {octave - 4} {step} {spelling.alter / 2})"


def head_name(head: Head) -> str:
    """The note of a head."""
    return note_name(head.spelling) if head.spelling is not None else _PLACE


def head_commands(head: Head) -> list[str]:
    """How a head looks and is raised by an eighth tone, before its note."""
    where = [f"\\gsHeight #{decimal(head.position)}"] if head.position is not None else []
    shape = [_SHAPES[head.shape]] if head.shape in _SHAPES else []
    off = head.alter - head.spelling.nearest.alter if head.spelling is not None else Fraction(0)
    return [*where, *([r"\gsBare"] if head.bare else []), *shape, *([f"\\gsEighth #{off / 2}"] if off else [])]


def before_note(marks: Iterable[Mark]) -> list[str]:
    """The marks that come before a note because they change its head."""
    return [text(mark) for mark in marks if isinstance(mark, Small | SungHead)]


def after_note(marks: Iterable[Mark], *, waves: bool) -> list[str]:
    """The marks after a note, at its beginning; `waves`: a trill gets a wavy line up to `WAVES_END`."""
    chosen = (mark for mark in marks if not isinstance(mark, Small | SungHead | Flutter | RepeatStrokes))
    spans = ((mark, isinstance(mark, TrillSign) and (waves or mark.waves is not None)) for mark in chosen)
    return [_trill(mark, "Span") if span and isinstance(mark, TrillSign) else text(mark) for mark, span in spans]


def at_every_head(marks: Iterable[Mark], value: Fraction) -> list[str]:
    """The marks repeated at every printed head of a note this many beats long. A head with as many flags
    as its strokes stand for has none: it is one of the repeats."""
    every = (mark for mark in marks if isinstance(mark, Flutter | RepeatStrokes))
    return [text(mark) for mark in every if not isinstance(mark, RepeatStrokes) or value >= 2 * mark.value]


def is_at_head(mark: Mark) -> bool:
    """Whether a mark belongs to a head, so that it cannot be placed where a note only continues."""
    return isinstance(mark, Edge | Bend)


WAVES_END = r"\gsTrillSpanEnd"


def footnote_mark(mark: FootnoteMark) -> LyText:
    """A footnote's mark with its numbers."""
    return code(f"\\gsMark {quoted(', '.join(mark.numbers))}")


def labels(said: Iterable[TechniqueLabel]) -> list[str]:
    """All words of techniques at one note, on one line; the stencils choose the text of each."""
    one = [f"({quoted(s.word)} {quoted(s.first)} {quoted(s.later)})" for s in said]
    return [f"\\gsSay #'({' '.join(one)})"] if one else []


def before_level(level: DynamicLevel, *, at_end: bool) -> list[str]:
    """What precedes the note of a level; `at_end`: the level has its own place after the last note."""
    return [
        *([r"\gsLevelAtEnd"] if at_end and level.level else []),
        *([r"\gsNiente"] if level.niente else []),
        *([f"\\gsShortHairpin #{level.letters}"] if level.letters is not None else []),
        *([r"\gsEndLevel"] if level.crowded else []),
    ]


def other_level(level: DynamicLevel) -> list[str]:
    """A level without a LilyPond command."""
    return [f"\\gsLevel {quoted(level.level)}"] if level.level and level.level not in LILYPONDS_LEVELS else []


def text(mark: Mark) -> str:
    """A mark as LilyPond text; that of a footnote is filled in later."""
    match mark:
        case LineStart():
            return _line(mark)
        case LineEnd():
            return r"\gsLineEnd"
        case Edge():
            return f"\\gs{''.join(word.capitalize() for word in mark.shape.split('-'))}"
        case Bend():
            return f"\\gsBend #{_BEND_DEPTH}"
        case Script():
            return _SCRIPTS[mark.sign]
        case HandTurnStart():
            return f"\\gsHandTurn #'({mark.here} {mark.there})"
        case HandTurnEnd():
            return r"\gsHandTurnEnd"
        case TechniqueTurnStart():
            return f"\\gsTurn {quoted(mark.here)} {quoted(mark.there)}"
        case TechniqueTurnEnd():
            return r"\gsTurnEnd"
        case SpanStart():
            return f"{_waved(mark.waves)}\\gsSpan {quoted(mark.word)}"
        case SpanEnd():
            return r"\gsSpanEnd"
        case Flutter():
            return r"\gsFlutter"
        case RepeatStrokes():
            return f"\\gsStrokes #{4 / mark.value}"
        case TrillSign():
            return _trill(mark, "")
        case SecondNote():
            return f"\\gsSecond{'' if mark.natural or mark.to.alter else 'Plain'} {_pitch(mark.to)}"
        case Words():
            return f"\\gsWord {quoted(mark.text)}"
        case Syllable():
            return f"\\gsSyllable {quoted(mark.text)}"
        case BreathSign():
            return r"\gsInhale" if mark.way == "in" else r"\gsExhale"
        case FootnoteMark():
            return FOOTNOTE_MARK
        case Fingering():
            return f"\\gsFingering {quoted(mark.name)}"
        case Cents():
            return f"\\gsTuned {note_name(mark.note)} #{mark.off}" if mark.note else f"\\gsCents #{mark.off}"
        case BandStart():
            return f"\\gsBand {note_name(mark.low)} {note_name(mark.high)}"
        case BandEnd():
            return r"\gsBandEnd"
        case FrameStart():
            return r"\gsFrame"
        case FrameWords():
            return f"\\gsFrameWords {quoted(mark.text)}"
        case FrameEnd():
            return r"\gsFrameEnd"
        case GoesOnStart():
            return f"\\gsGoesOn {quoted(mark.text)}"
        case GoesOnEnd():
            return r"\gsGoesOnEnd"
        case LengthStart():
            return f"\\gsLength {quoted(mark.text)}"
        case LengthEnd():
            return r"\gsLengthEnd"
        case Small():
            return r"\gsSmall"
        case SungHead():
            return _SHAPES[mark.shape]
    assert_never(mark)


def _line(line: LineStart) -> str:
    details = [f"(style . {_STYLES[line.style]})"]
    if line.growth:
        details.append(f"(growth . {line.growth})")
    if line.arrow:
        details.append("(arrow . #t)")
    if line.turns:
        turns = " ".join(f"({share} . {float(off):g})" for share, off in line.turns)
        details.append(f"(turns . ({turns}))")
    if line.word:
        details.append(f"(word . {quoted(line.word)})")
    return f"\\gsLine #'({' '.join(details)})"


def _trill(sign: TrillSign, reach: str) -> str:
    to = f"To {_pitch(sign.to)}" if sign.to is not None else ""
    return f"{_waved(sign.waves)}\\gsTrill{reach}{to}"


def _waved(waves: Waves | None) -> str:
    """What makes a span one of waves, before it."""
    if waves is None:
        return ""
    rows = (
        f"({name} {' '.join(f'({decimal(share)} . {decimal(Fraction(factor))})' for share, factor in found)})"
        for name, found in (("speed", waves.speed), ("width", waves.width))
    )
    return f"\\gsWaves ##{'t' if waves.signs else 'f'} #'({' '.join(rows)}) "
