"""What changes within a passage, or marks a place of it, beside its notes: skips with the commands between them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from gesturesmith.backends.lilypond.marks import grace_beats
from gesturesmith.lytext import LyText, code, quoted
from gesturesmith.model.changes import (
    DoubleBar,
    KeyChange,
    MeterChange,
    RehearsalMark,
    TempoChange,
    TempoGradually,
)
from gesturesmith.score.music import Music
from gesturesmith.sheets._tempo import tempo_mark, tempo_markup
from gesturesmith.units import KeySignature

_WORDS = {"accelerando": "accel.", "ritardando": "rit."}  # in every language

_INSTANT = Fraction(1, 16)

type Graces = Mapping[Fraction, Fraction]  # how long grace notes are, outside the time of the music, by their time


def graces(music: Music) -> Graces:
    """The grace notes of a line."""
    return {e.start: grace_beats(len(e.graces)) for part in music.parts for e in part.played.events if e.graces}


def key(signature: KeySignature) -> LyText:
    """A key signature."""
    tonic = signature.tonic.lower() or "c"
    name = tonic[0] + {"#": "s", "b": "f"}.get(tonic[1:], "")
    return code(f"\\key {name} \\{signature.mode or 'major'}")


def timeline(music: Music, *, upper: bool, waits: Graces) -> LyText | None:
    """A voice of skips with everything that changes after the beginning, None if nothing does.

    upper   whether it is the highest staff, with the tempo and the rehearsal marks above it
    waits   the grace notes of all lines: what changes at such a place waits for them
    """
    if not music.changes:
        return None
    turns = [change for change in music.changes if isinstance(change, TempoGradually)]
    times = {Fraction(0), music.beats, *(c.at for c in music.changes), *(_ends(music, turn) for turn in turns)}
    rows: list[LyText] = []
    order = sorted(time for time in times if time <= music.beats)
    for at, after in zip(order, (*order[1:], None), strict=True):
        commands = list(_commands(music, at, upper=upper))
        if commands and at in waits:
            commands.append(code(f"\\grace {{ {skip(waits[at])} }}"))
        spans = "".join(_spans(music, at)) if upper else ""
        if after is not None:
            commands.append(code(f"{skip(after - at)}{spans}"))
        rows += commands
    inside = "\n".join(rows)
    return code(f"\\new Voice {{\n{inside}\n}}")


def _commands(music: Music, at: Fraction, *, upper: bool) -> Iterator[LyText]:
    here = [change for change in music.changes if change.at == at]
    if at < music.beats and any(isinstance(change, DoubleBar) for change in here):
        yield code('\\bar "||"')
    for change in here:
        if isinstance(change, KeyChange):
            yield key(change.key)
        elif isinstance(change, MeterChange):
            yield code(f"\\time {change.meter[0]}/{change.meter[1]}")
    if not upper:
        return
    for change in here:
        if isinstance(change, RehearsalMark):
            yield code(f"\\gsRehearsal {quoted(change.text)}")
    new = next((change for change in here if isinstance(change, TempoChange)), None)
    meter = _meter_at(music, at)
    if new is not None:
        yield tempo_mark(new.tempo, new.words, meter, new.counted or music.counted)
    else:
        for turn in music.changes:
            if isinstance(turn, TempoGradually) and turn.until == at < music.beats:
                yield tempo_mark(turn.tempo, None, meter, turn.counted or music.counted)


def _spans(music: Music, at: Fraction) -> Iterator[LyText]:
    """The ends and beginnings of the lines that show how long the tempo changes."""
    for turn in music.changes:
        if isinstance(turn, TempoGradually) and _ends(music, turn) == at:
            yield code("\\gsGraduallyEnd")
    for turn in music.changes:
        if isinstance(turn, TempoGradually) and turn.at == at:
            reached = "##f"
            if turn.until == music.beats:
                mark = tempo_markup(turn.tempo, None, _meter_at(music, turn.until), turn.counted or music.counted)
                reached = f"\\markup {mark}"
            yield code(f"\\gsGradually {quoted(_WORDS[turn.turn])} {reached}")


def _ends(music: Music, turn: TempoGradually) -> Fraction:
    """Where its line ends: LilyPond has no place for an end after the last note."""
    return turn.until - _INSTANT if turn.until == music.beats else turn.until


def _meter_at(music: Music, at: Fraction) -> tuple[int, int] | None:
    changed = [c.meter for c in music.changes if isinstance(c, MeterChange) and c.at <= at]
    return changed[-1] if changed else music.meter


def skip(beats: Fraction) -> str:
    """An invisible rest this many beats long."""
    return f"s1*{beats.numerator}/{4 * beats.denominator}"
