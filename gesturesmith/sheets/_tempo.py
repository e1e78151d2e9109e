"""A tempo above the staff, in the note value that the player counts."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from gesturesmith.lytext import LyText, code, quoted


def tempo_number(tempo: Fraction) -> str:
    """`72`, `66.5`."""
    return f"{Decimal(str(round(float(tempo), 2))).normalize():f}" if tempo.denominator > 1 else str(tempo)


def tempo_mark(
    tempo: Fraction, words: str | None, meter: tuple[int, int] | None, counted: Fraction | None = None
) -> LyText:
    """The tempo above the staff, in the note value that the player counts."""
    command, said = _tempo(tempo, words, meter, counted)
    return code(f"\\{'gsTempoOf' if command else 'gsTempo'} {said}")


def tempo_markup(
    tempo: Fraction, words: str | None, meter: tuple[int, int] | None, counted: Fraction | None = None
) -> LyText:
    """The same as a markup."""
    command, said = _tempo(tempo, words, meter, counted)
    return code(f"\\{'gs-tempo-of' if command else 'gs-tempo'} {said}")


def _tempo(
    tempo: Fraction, words: str | None, meter: tuple[int, int] | None, counted: Fraction | None
) -> tuple[bool, LyText]:
    """Whether the note value counted must be named, and the arguments of the command."""
    log, dots, beats = counted_in(meter) if counted is None else _named(counted)
    number = quoted(tempo_number(tempo / beats))
    named = beats != 1
    note = f"#{log} #{dots} " if named else ""
    return named, code(f"{quoted(words or '')} {note}{number}")


def counted_in(meter: tuple[int, int] | None) -> tuple[int, int, Fraction]:
    """The note value counted in a meter: LilyPond's number for it, its dots, its length in quarters.

    Compound meters are counted in dotted notes, other meters of eighths or shorter in those values.
    """
    if meter is None or meter[1] < 8:
        return 2, 0, Fraction(1)
    count, unit = meter
    log = unit.bit_length() - 1
    if count % 3 == 0 and count > 3:
        return log - 1, 1, Fraction(12, unit)
    return log, 0, Fraction(4, unit)


def _named(note: Fraction) -> tuple[int, int, Fraction]:
    """The same of a note value in quarters, plain or dotted."""
    dots = int(note.numerator == 3)
    plain = note * Fraction(2, 3) if dots else note
    return int(4 / plain).bit_length() - 1, dots, note
