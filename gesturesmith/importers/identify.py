"""Which of our instruments a part of a score is for."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import cache

from gesturesmith import instruments
from gesturesmith.source import as_said

# Names of sounds in MusicXML 4.0 (sounds.xml), by their beginnings; the longest that fits counts.
_SOUNDS = {
    "brass.alto-horn": "tenor-horn",
    "brass.baritone-horn": "baritone",
    "brass.cornet": "cornet",
    "brass.euphonium": "euphonium",
    "brass.flugelhorn": "flugelhorn",
    "brass.french-horn": "horn",
    "brass.kuhlohorn": "flugelhorn",
    "brass.natural-horn": "natural-horn",
    "brass.sousaphone": "tuba-bb",
    "brass.helicon": "tuba-bb",
    "brass.trombone": "trombone",
    "brass.trombone.alto": "alto-trombone",
    "brass.trombone.bass": "bass-trombone",
    "brass.trombone.contrabass": "bass-trombone",
    "brass.trumpet": "trumpet",
    "brass.trumpet.bass": "bass-trumpet",
    "brass.trumpet.c": "trumpet-c",
    "brass.trumpet.piccolo": "piccolo-trumpet",
    "brass.tuba": "tuba",
    "brass.vienna-horn": "horn-f",
    "brass.wagner-tuba": "wagner-tuba",
}
# General MIDI programs, from 1 as MusicXML counts them.
_PROGRAMS = {57: "trumpet", 58: "trombone", 59: "tuba", 60: "trumpet", 61: "horn"}
# The names of the families in four languages, as words or their beginnings, after the names of single instruments.
_FAMILIES = (
    (
        re.compile(r"\b(bass|contrabass|kontrabass)[ -]?(trombone|posaune)|\btrombone (basse|basso)"),
        "bass-trombone",
    ),
    (re.compile(r"\balt(o)?[ -]?(trombone|posaune)|\btrombone alto"), "alto-trombone"),
    (re.compile(r"\bwagner"), "wagner-tuba"),
    (re.compile(r"\b(piccolo)[ -]?(trumpet|trompete)|\btrompette piccolo"), "piccolo-trumpet"),
    (re.compile(r"\bbass[ -]?(trumpet|trompete)|\btrompette basse|\btromba bassa"), "bass-trumpet"),
    (re.compile(r"\bflugel|\bflicorno"), "flugelhorn"),
    (re.compile(r"\b(alto|tenor|alt)[ -]?horn\b"), "tenor-horn"),
    (re.compile(r"\bbarit?on[ei]? horn"), "baritone"),
    (re.compile(r"\bcornet|\bkornett|\bcornetta|\bcornetto a pistoni"), "cornet"),
    (re.compile(r"\beuphon|\beufon"), "euphonium"),
    (re.compile(r"\btromb(on|oni|one|ones)\b|\bposaune|\btbn\b|\btrb\b"), "trombone"),
    (re.compile(r"\btrumpet|\btrompet|\btromb[ae]\b|\btromp\b|\btpt\b|\btrp\b|\bclarin[oi]?\b"), "trumpet"),
    (re.compile(r"\btuba|\bbombard|\btub\b"), "tuba"),
    (re.compile(r"\bhorn|\bhorner\b|\bcors?\b|\bcorn[oi]\b|\bwaldhorn|\bhns?\b|\bcorni?\b"), "horn"),
)
_NOT = re.compile(
    r"ingles|anglai|english|engl\b|basset|krumm|alphorn|alpenhorn|cornemuse|cornett?o\b|zink|shofar|"
    r"corno di bassetto|marina|tromba marina|string|clarinet|keyboard|synth|organ|voice|stimme|chor\b|"
    r"\Abar[iy]tone?\Z"  # the voice has the same name
)


def identify(names: Iterable[str], sounds: Sequence[str], programs: Iterable[int]) -> tuple[str, str]:
    """The key of an instrument and by what it was recognised, or "" and "" if it is none of ours.

    names      of the part and of its instruments
    sounds     standard names of sounds (MusicXML 4.0, sounds.xml)
    programs   General MIDI, from 1
    """
    named = tuple(names)
    for name in named:
        key = _own_names().get(as_said(name), "")
        if key:
            return key, f"by its name “{name}”"
    for sound in sounds:
        fits = [start for start in _SOUNDS if sound == start or sound.startswith(f"{start}.")]
        if fits:
            return _SOUNDS[max(fits, key=len)], f"by its sound {sound}"
    if any(sounds):  # standard names of other instruments and voices
        return "", ""
    for name in named:
        key = by_name(name)
        if key:
            return key, f"by its name “{name}”"
    if any(_NOT.search(as_said(name)) for name in named):
        return "", ""
    for program in programs:
        if program in _PROGRAMS:
            return _PROGRAMS[program], f"by its MIDI program {program}"
    return "", ""


@cache
def _own_names() -> dict[str, str]:
    """Our instruments by their full names, which say more than a sound."""
    return {as_said(instruments.get(key).name): key for key in instruments.names()}


def by_name(name: str) -> str:
    """The instrument with this name in one of four languages, "" if there is none: the whole name as a technique of
    the trade knows it, else its family."""
    said = as_said(re.sub(r"[0-9]+\.?|\b[IVX]+\b", " ", name))
    if not said or _NOT.search(said):
        return ""
    whole = instruments.called(said) if said in instruments.spoken() else ()
    if whole:
        return whole[0]
    return next((key for pattern, key in _FAMILIES if pattern.search(said)), "")
