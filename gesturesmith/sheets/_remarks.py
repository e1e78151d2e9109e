"""The paragraphs of a notes page: how the parts are written, general remarks, cautions."""

from __future__ import annotations

from gesturesmith.instruments.base import Instrument
from gesturesmith.score.heads import on_page
from gesturesmith.score.marks import Fingering, FrameStart
from gesturesmith.score.music import Music
from gesturesmith.score.notes import caution_keys
from gesturesmith.sheets._entries import NotesPart, said, techniques_of
from gesturesmith.sheets._signs import Use, is_about
from gesturesmith.techniques.base import Technique
from gesturesmith.units import UNISON, Interval, interval
from gesturesmith.wording import keys, technique_title
from gesturesmith.wording import text as wording

type Paragraphs = tuple[tuple[str, ...], ...]  # each with one text per language

_INTERVAL = "interval-"


def transposition(parts: tuple[NotesPart, ...], languages: tuple[str, ...]) -> Paragraphs:
    """How each instrument's part sounds compared with what is written, and what its bass clef means."""
    found: dict[tuple[str, ...], None] = {}
    for part in parts:
        instrument = part.settings.instrument
        concert = any(music.pitches == "sounding" for music in part.printed)
        if concert and instrument.sounding != UNISON:
            found[said("score-sounding", languages)] = None
            continue
        sounds = (_sounds(instrument, part.settings.part_name((one,)), one) for one in languages)
        found[tuple(sounds)] = None
        if _has_old_bass_clef(instrument) and any(_in_bass_clef(music) for music in part.printed):
            found[said("clef-horn-bass", languages)] = None
    return tuple(found)


def _in_bass_clef(music: Music) -> bool:
    return music.clef == "bass" or any(event.clef == "bass" for event in music.events)


def _has_old_bass_clef(instrument: Instrument) -> bool:
    """Whether notes in its bass clef used to be written an octave lower: it sounds lower than written and changes
    from treble to bass clef."""
    clefs = [clef for clef, _ in instrument.clefs]
    return clefs[0] == "treble" and "bass" in clefs and instrument.sounding.cents < 0


def _sounds(instrument: Instrument, name: str, language: str) -> str:
    by = instrument.sounding
    way = "none" if by == UNISON else "lower" if by.cents < 0 else "higher"
    text = wording(f"transposition-{way}", language).replace("{interval}", _interval_name(by, language))
    return text.replace("{instrument}", name)


def _interval_name(by: Interval, language: str) -> str:
    size = -by if by.cents < 0 else by
    names = (k for k in keys(language) if k.startswith(_INTERVAL) and interval(k.removeprefix(_INTERVAL)) == size)
    key = next(names, None)
    return wording(key, language) if key else ""


def remarks(parts: tuple[NotesPart, ...], languages: tuple[str, ...]) -> Paragraphs:
    """General remarks without a picture, about what the parts actually use."""
    uses = [Use(case=case, music=music, settings=part.settings) for part in parts for case, music in part.all]
    wanted: dict[str, None] = {}
    if any(is_about(u) for u in uses) and any(_has_exact_head(u) for u in uses):
        wanted["remark-exact"] = None
    if any(_has_accidental(u) for u in uses):
        wanted[_accidentals(parts)] = None
    for one in uses:
        if one.has(Fingering):
            wanted[_fingerings(one.gesture.instrument)] = None
    if "remark-fingerings" in wanted:
        wanted.pop("remark-fingerings-valves", None)  # which it includes
    if any(t.look.word for u in uses for t in techniques_of(u.case)):
        wanted["remark-words"] = None
    printed = (mark for part in parts for music in part.printed for mark in music.marks)
    if any(isinstance(mark, FrameStart) for mark in printed):
        wanted["remark-box"] = None
    missing = dict.fromkeys(title for part in parts for title in part.unread)
    return (*(said(key, languages) for key in wanted), *(_missing(title, languages) for title in missing))


def _missing(title: str, languages: tuple[str, ...]) -> tuple[str, ...]:
    """Says what is missing from both the parts and this page."""
    return tuple(text.replace("{title}", title) for text in said("unread-gesture", languages))


def _has_exact_head(one: Use) -> bool:
    return any(p.kind == "pitch" and not p.about for p in one.gesture.sounding_points)


def _has_accidental(one: Use) -> bool:
    pitches = (p.pitch for p in one.gesture.sounding_points)
    return any(on_page(p, one.music.pitches).alter != 0 for p in pitches if p is not None)


def _accidentals(parts: tuple[NotesPart, ...]) -> str:
    barred, free = (any((m.meter is None) is none for p in parts for m in p.printed) for none in (False, True))
    return f"remark-accidentals-{'both' if barred and free else 'bar' if barred else 'note'}"


def _fingerings(instrument: Instrument) -> str:
    if instrument.kind == "slide":
        return "remark-positions"
    return "remark-fingerings" if len(instrument.sides) > 1 else "remark-fingerings-valves"


def cautions(parts: tuple[NotesPart, ...], languages: tuple[str, ...]) -> Paragraphs:
    """Cautions about tiring or loud techniques, each once, a technique's own with its name. The player decides."""
    found = tuple(dict.fromkeys(t for part in parts for case, _ in part.all for t in techniques_of(case)))
    said_of: dict[str, list[Technique]] = {}
    for technique in found:
        for key in caution_keys((technique,)):
            said_of.setdefault(key, []).extend([technique] if key == technique.caution else [])
    if not said_of:
        return ()
    told = (tuple(_caution(key, those, language) for language in languages) for key, those in said_of.items())
    return (*told, said("caution-decide", languages))


def _caution(key: str, those: list[Technique], language: str) -> str:
    if not those:
        return wording(key, language)
    titles = ", ".join(technique_title(t, language) for t in those)
    return wording("said-of", language).replace("{titles}", titles).replace("{text}", wording(key, language))
