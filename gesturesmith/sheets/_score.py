"""What pages and snippets share: the score of an excerpt, its footnotes, its paper."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.backends.lilypond.marks import note_name
from gesturesmith.lytext import LyText, code, comment, quoted
from gesturesmith.model.piece import Settings
from gesturesmith.score.music import USUAL_PLACE, Footnote, Music
from gesturesmith.sheets._tempo import tempo_mark
from gesturesmith.sheets._timeline import Graces, graces, key, skip, timeline
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
    waits: Graces | None = None,
) -> LyText:
    """A staff with the music; `ly` is its text, possibly with other footnote numbers.

    `label` is a markup at the left of the staff, `short` the one of later systems; `before` is music before the
    time signature. `upper`: the highest staff, with the tempo above it; `alone`: the only one. `waits`: the grace
    notes of all staves.
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
    if music.key is not None:
        start.append(key(music.key))
    start += [before] if before else []
    if music.meter is not None and music.pitches == "written" and alone:
        start.append(r"\gsPart")
    start.append(r"\cadenzaOn" if music.meter is None else f"\\time {music.meter[0]}/{music.meter[1]}")
    if music.pickup:
        start.append(f"\\partial {_length(music.pickup)}")
    if upper and music.bar is not None:
        start.append(f"\\gsBarNumbers #{music.bar}")
    if not upper:
        pass
    elif music.tempo is not None:
        start.append(tempo_mark(music.tempo, music.tempo_text, music.meter, music.counted))
    elif music.tempo_text:
        start.append(f"\\gsTempoWords {quoted(music.tempo_text)}")
    end = [f'\\bar "{music.last_bar}"'] if music.last_bar else []
    changes = timeline(music, upper=upper, waits=graces(music) if waits is None else waits)
    line = _with_cues(music, ly)
    if changes is not None:
        line = code(f"<< {{\n{line}\n}} {changes} >>")
    inside = "\n".join([*start, line, *end])
    return code(f"\\new Staff \\with {{ {' '.join(mods)} }} {{\n{inside}\n}}")


def _length(beats: Fraction) -> str:
    """A length as LilyPond multiplies it."""
    return f"1*{beats.numerator}/{4 * beats.denominator}"


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


def layout(music: Music, kind: str) -> LyText:
    """The layout block of a music's score. `kind`: "Row" beside its label, "Lines" across the page, "Picture"."""
    if not music.free:
        return code(f"\\layout {{ \\gs{kind} }}")
    scale = f" \\context {{ \\Score \\gsPlace #{music.place} }}" if music.place != USUAL_PLACE else ""
    return code(f"\\layout {{ \\gs{kind}InTime{scale} }}")


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
