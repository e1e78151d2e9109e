"""A document: its head, its parts, and the measures of one system after another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from math import lcm

from gesturesmith.backends.musicxml._xml import Element, add, document, lone
from gesturesmith.backends.musicxml.marks import lost
from gesturesmith.backends.musicxml.measures import PartState, PartWriter, attributes, bounds_of
from gesturesmith.score.music import Footnote
from gesturesmith.score.staves import Staff, System
from gesturesmith.version import __version__

_LEFT, _LOWEST, _APART = 80, 60, 40  # tenths of a staff space: where the texts at the foot of the page stand
_DRUMS = 10  # the channel that plays no pitches in General MIDI
_CHANNELS = 16

type PartName = tuple[str, int]  # as printed, and which of those with the same name


def musicxml(systems: Sequence[System], *, title: str, author: str, description: str) -> tuple[str, str]:
    """The text of a MusicXML 4.0 document: what comes before a comment at its head, and after it.

    systems      the music, one after another, each with the lines that sound together
    description  the music in words; "" for none
    """
    numbered, footnotes = _numbered(systems)
    root = lone("score-partwise", version="4.0")
    if title:
        add(add(root, "work"), "work-title", title)
    _identification(root, author, description)
    cautions = dict.fromkeys(text for system in systems for staff in system for text in staff.music.cautions)
    drafts = dict.fromkeys(text for system in systems for staff in system for text in staff.music.draft)
    foot = [("caution", text) for text in (*drafts, *cautions)]
    foot += [("footnote", f"{number} {text}") for number, text in footnotes.items()]
    if foot:
        _at_the_head(root, title, author)
    _at_the_foot(root, foot)
    named = [_named(system) for system in numbered]
    parts = _parts(named)
    listed = add(root, "part-list")
    if len(parts) > 1:
        group = add(listed, "part-group", type="start", number=1)
        add(group, "group-symbol", "bracket")
        add(group, "group-barline", "yes")
    for number, (name, staff) in enumerate(parts.items(), start=1):
        _listed(listed, number, name, staff)
    if len(parts) > 1:
        add(listed, "part-group", type="stop", number=1)
    made = {name: add(root, "part", id=f"P{number}") for number, name in enumerate(parts, start=1)}
    _measures(named, made, footnotes, headed=len(systems) > 1)
    return document(root)


def lacks(systems: Sequence[System]) -> tuple[str, ...]:
    """What of the music has no element, for people, each once."""
    musics = [staff.music for system in systems for staff in system]
    found = {what for music in musics for mark in music.marks if (what := lost(mark))}
    if any(music.cues for music in musics):
        found.add("cues from other parts")
    return tuple(sorted(found))


# --- head ------------------------------------------------------------------------------------------------------


def _identification(root: Element, author: str, description: str) -> None:
    made = add(root, "identification")
    if author:
        add(made, "creator", author, type="composer")
    encoding = add(made, "encoding")
    add(encoding, "software", f"Gesturesmith {__version__}")
    for name in ("accidental", "beam", "stem"):
        add(encoding, "supports", element=name, type="yes")
    if description:
        add(add(made, "miscellaneous"), "miscellaneous-field", description, name="description")


def _at_the_head(root: Element, title: str, author: str) -> None:
    """Title and author as texts of the first page: where a page has any text, some programs print no others."""
    for kind, text, justify in (("title", title, "center"), ("composer", author, "right")):
        if text:
            credit = add(root, "credit", page=1)
            add(credit, "credit-type", kind)
            add(credit, "credit-words", text, justify=justify, valign="top")


def _at_the_foot(root: Element, texts: list[tuple[str, str]]) -> None:
    for number, (kind, text) in enumerate(texts):
        credit = add(root, "credit", page=1)
        add(credit, "credit-type", kind)
        place = _LOWEST + _APART * (len(texts) - 1 - number)
        add(credit, "credit-words", text, default_x=_LEFT, default_y=place, valign="bottom")


def _listed(listed: Element, number: int, name: PartName, staff: Staff) -> None:
    instrument = staff.settings.instrument
    made = add(listed, "score-part", id=f"P{number}")
    add(made, "part-name", f"{name[0]} {staff.player}".strip())
    add(made, "part-abbreviation", f"{staff.short} {staff.player}".strip())
    sound = add(made, "score-instrument", id=f"P{number}-I1")
    add(sound, "instrument-name", instrument.name)
    add(sound, "instrument-sound", instrument.sound)
    midi = add(made, "midi-instrument", id=f"P{number}-I1")
    channel = (number - 1) % (_CHANNELS - 1) + 1
    add(midi, "midi-channel", channel + (channel >= _DRUMS))
    add(midi, "midi-program", instrument.midi_program)


# --- parts -----------------------------------------------------------------------------------------------------


def _named(system: System) -> dict[PartName, Staff]:
    """The lines of a system by part: divided players have the same name."""
    made: dict[PartName, Staff] = {}
    for staff in system:
        made[staff.name, sum(name == staff.name for name, _ in made)] = staff
    return made


def _parts(named: Sequence[dict[PartName, Staff]]) -> dict[PartName, Staff]:
    """All parts in the order of the score, each with its first line; a second player comes after the first."""
    names = list(dict.fromkeys(name for system in named for name, _ in system))
    first: dict[PartName, Staff] = {}
    for system in named:
        for part, staff in system.items():
            # The part of a first player is that of both where they are not divided.
            first.setdefault(part, staff if part[1] else replace(staff, player=""))
    return {part: first[part] for name in names for part in sorted(p for p in first if p[0] == name)}


def _measures(
    systems: Sequence[dict[PartName, Staff]],
    parts: dict[PartName, Element],
    footnotes: dict[str, str],
    *,
    headed: bool,
) -> None:
    number = 1
    force = {name: PartState() for name in parts}
    for place, system in enumerate(systems):
        musics = [staff.music for staff in system.values()]
        bounds = bounds_of(musics)
        if musics[0].bar is not None:
            # Bars are counted from the first whole one.
            number = musics[0].bar - bool(musics[0].pickup)
        heading = (musics[0].title or musics[0].name) if headed else ""
        writers = {name: PartWriter(staff, force[name], bounds, footnotes) for name, staff in system.items()}
        upper = next(iter(system))
        for n, (start, end) in enumerate(pairwise(bounds)):
            for name, part in parts.items():
                if name not in writers:
                    part.append(_empty(number + n, start, end, system[name[0], 0], force[name]))
                    continue
                part.append(
                    writers[name].measure(
                        n,
                        number + n,
                        heading=heading if not n else "",
                        upper=name == upper,
                        new_system=bool(place),
                    )
                )
        number += len(bounds) - 1


def _empty(name: int, start: Fraction, end: Fraction, staff: Staff, force: PartState) -> Element:
    """A measure in which a second player has nothing, because the two are not divided there."""
    music, length = staff.music, end - start
    made = lone("measure", number=name)
    divisions = lcm(force.divisions or 1, length.denominator)
    changed = attributes(music, force, divisions, start, end)
    if len(changed):
        made.append(changed)
    note = add(made, "note")
    add(note, "rest", measure="yes")
    add(note, "duration", int(length * divisions))
    add(note, "voice", 1)
    return made


# --- footnotes -------------------------------------------------------------------------------------------------


def _numbered(systems: Sequence[System]) -> tuple[list[System], dict[str, str]]:
    """The music with footnotes numbered throughout the document, in its order, and their texts; equal ones have
    one number. Those of a notes page have their numbers there, and no text here."""
    numbers: dict[str, str] = {}
    made = []
    for system in systems:
        lines = []
        for staff in system:
            music = staff.music
            if music.footnotes:
                given = {note.number: _number(note, numbers) for note in music.footnotes}
                staff = replace(staff, music=music.renumbered(given))
            lines.append(staff)
        made.append(tuple(lines))
    return made, {number: text for text, number in numbers.items()}


def _number(note: Footnote, numbers: dict[str, str]) -> str:
    return numbers.setdefault(note.text, str(len(numbers) + 1))
