"""What pages and snippets share: the score of an excerpt, its footnotes, its paper."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from gesturesmith.backends.lilypond.marks import note_name
from gesturesmith.lytext import LyText, code, comment, quoted
from gesturesmith.model.piece import Settings
from gesturesmith.score.music import USUAL_PLACE, Footnote, Music
from gesturesmith.units import Spelling
from gesturesmith.wording import said

NOTHING = code("")
_POINTS_PER_MM = 72.27 / 25.4  # LilyPond's staff size is in printer's points


def place_mark(music: Music) -> LyText:
    """The line that shows, in LilyPond's messages, which music follows."""
    return comment(f"{music.kind} {music.name}")


def staff(
    music: Music,
    settings: Settings,
    ly: LyText,
    label: LyText = NOTHING,
    before: LyText = NOTHING,
    *,
    short: LyText = NOTHING,
    upper: bool = True,
    alone: bool = True,
) -> LyText:
    """A staff with the music; `ly` is its text, possibly with other footnote numbers.

    `label` is a markup at the left of the staff, `short` the one of later systems; `before` is music before the
    time signature. `upper`: the highest staff, with the tempo above it; `alone`: the only one.
    """
    mods = [r"\gsNoMeter" if music.meter is None else r"\gsBarred"]
    if music.staff_lines == 3:
        mods.append(r"\gsThreeLines")
    if settings.accidentals == "arrows":
        mods.append(r"\gsArrows")
    if label:
        mods.append(f"instrumentName = \\markup {label}")
    if short:
        mods.append(f"shortInstrumentName = \\markup {short}")
    start = [f'\\clef "{music.clef}"'] if music.clef else []
    start += [before] if before else []
    if music.meter is not None and music.pitches == "written" and alone:
        start.append(r"\gsPart")
    start.append(r"\cadenzaOn" if music.meter is None else f"\\time {music.meter[0]}/{music.meter[1]}")
    if upper and music.bar is not None:
        start.append(f"\\gsBarNumbers #{music.bar}")
    if not upper:
        pass
    elif music.tempo is not None:
        start.append(tempo_mark(music.tempo, music.tempo_text, music.meter, music.counted))
    elif music.tempo_text:
        start.append(f"\\gsTempoWords {quoted(music.tempo_text)}")
    end = [f'\\bar "{music.last_bar}"'] if music.last_bar else []
    inside = "\n".join([*start, _with_cues(music, ly), *end])
    return code(f"\\new Staff \\with {{ {' '.join(mods)} }} {{\n{inside}\n}}")


def _with_cues(music: Music, ly: LyText) -> LyText:
    """The music with small notes of other parts beside its rests."""
    if not music.cues:
        return ly
    sounding = _pitch_of_transposition(music)
    rows = [f"\\transposition {sounding}"]
    at = Fraction(0)
    for cue in music.cues:
        rows += [skip(cue.start - at)] if cue.start > at else []
        words = " ".join(quoted(text) for text in (cue.quote, cue.name, cue.clef))
        rows.append(f"\\gsCue #{'UP' if cue.above else 'DOWN'} {words} {{ {skip(cue.end - cue.start)} }}")
        at = cue.end
    inside = "\n".join(rows)
    return code(f"<< {{\n{ly}\n}} \\new Voice {{\n{inside}\n}} >>")


def quotable(music: Music, ly: LyText, quote: str) -> LyText:
    """A line that parts may quote as a cue, before the book with them."""
    start = f"\\transposition {_pitch_of_transposition(music)}"
    return code(f"\\addQuote {quoted(quote)} {{ {start}\n{ly}\n}}")


def _pitch_of_transposition(music: Music) -> str:
    """What a written C4 sounds, as LilyPond names it."""
    return note_name(Spelling("C", Fraction(0), 4).transposed(music.transposition))


def skip(beats: Fraction) -> str:
    """An invisible rest this many beats long."""
    return f"s1*{beats.numerator}/{4 * beats.denominator}"


def layout(music: Music, kind: str) -> LyText:
    """The layout block of a music's score. `kind`: "Row" beside its label, "Lines" across the page, "Picture"."""
    if not music.free:
        return code(f"\\layout {{ \\gs{kind} }}")
    scale = f" \\context {{ \\Score \\gsPlace #{music.place} }}" if music.place != USUAL_PLACE else ""
    return code(f"\\layout {{ \\gs{kind}InTime{scale} }}")


def tempo_number(tempo: Fraction) -> str:
    """`72`, `66.5`."""
    return f"{Decimal(round(float(tempo), 2)).normalize():f}" if tempo.denominator > 1 else str(tempo)


def note(footnote: Footnote) -> LyText:
    """A footnote as a markup: its text is indented clear of the number."""
    return code(f"\\gs-note {quoted(footnote.number)} {quoted(footnote.text)}")


def stamp(settings: Settings) -> LyText:
    """The stamp of a draft as a markup."""
    return code(f"\\gs-stamp {quoted(said('draft', settings.wording))}")


def staff_size(settings: Settings, share: float = 1) -> LyText:
    """The staff's height, inside a `\\paper` block; `share` of it for smaller examples."""
    return code(f"#(layout-set-staff-size {share * float(settings.staff_mm) * _POINTS_PER_MM:.3f})")


def field(name: str, value: str) -> str:
    """A line of a `\\header` block. Sharps and flats in it come from the music font."""
    signed = "♭" in value or "♯" in value
    return f"  {name} = {code(r'\markup \gs-name ') if signed else ''}{quoted(value)}"


def header(title: str, author: str) -> LyText:
    """The metadata of a PDF."""
    fields = (("pdftitle", title), ("pdfauthor", author))
    return code(" ".join(f"{name} = {quoted(value)}" for name, value in fields if value))


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
