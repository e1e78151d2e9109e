"""What the words beside a staff ask of the player: techniques, mutes and their ends, in four languages."""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from gesturesmith import techniques
from gesturesmith.lang.trade_words import TRADE_WORDS
from gesturesmith.lang.words import MUTES
from gesturesmith.source import as_said
from gesturesmith.techniques.base import PLAIN_END, Technique

_PIECES = re.compile(r"[,;/()\[\]]| - | – |\n")
# How often a second, after the word for what comes and goes: "vib. 3–7/s".
_RATE = re.compile(r"\s*\b[0-9][0-9.,]*(?:\s?[–-]\s?[0-9][0-9.,]*)?/s\b")
# A mute by its general name, in or out. "Sord." and its like alone mean that it goes in.
_MUTE = re.compile(r"\b(sord|sourd|mutes?\b|muted\b)|dampf")
_OUT = re.compile(
    r"\b(senza|sans|ohne|no|without|remove|off|out|weg|ab|via|oter|otez|enlev\w*|levare|togliere|unmuted?)\b"
)
# The bell is free again, whatever was in it or before it.
_OPEN = frozenset({"open", "offen", "ouvert", "aperto", "aperti", "ouvrez"})
_NOT_SAID = frozenset({"open", "voice", "voce", "voix", "chant", "run", "scale", "turn", "note"})


class Said(NamedTuple):
    """What words ask for from here on.

    turns_to  keys of the techniques that begin
    ends      keys of those that end; `plain`: all of them
    mute      the mute that goes in, "" for none
    slides    keys of the ways of sliding that they may mean; they hold for a line
    """

    turns_to: tuple[str, ...] = ()
    ends: tuple[str, ...] = ()
    plain: bool = False
    mute: str = ""
    slides: tuple[str, ...] = ()


@cache
def said(text: str) -> Said:
    """What words ask for; words that name no technique ask for nothing."""
    turns: list[str] = []
    ends: list[str] = []
    slides: list[str] = []
    plain, mute = False, ""
    for piece in _pieces(text):
        out = _muting(piece)
        if out is not None:
            if out:
                mute = out
                turns += [t.key for t in _known() if t.takes_mute]
            else:
                ends += [t.key for t in _known() if t.takes_mute]
            continue
        found = _begins().get(piece, ())
        over = _ends().get(piece, ())
        motions = tuple(key for key in found if techniques.get(key).layer == "motion")
        others = tuple(key for key in found if key not in motions)
        if piece in _OPEN:
            ends += [t.key for t in _known() if t.layer in ("bell", "cover")]
        elif over:  # what ends one technique may begin another: stem in, stem out
            ends += over
            turns += others[:1]
        elif any(techniques.get(key).layer == "none" for key in others) or piece in _plain():
            plain = True
        elif motions and len(motions) >= len(others):  # "gliss." may be by half valves as well
            slides += motions
        elif others:
            turns.append(others[0])
    return Said(tuple(dict.fromkeys(turns)), tuple(dict.fromkeys(ends)), plain, mute, tuple(slides))


def _pieces(text: str) -> list[str]:
    """The words in the form given by `as_said`, divided at commas and the like, each piece and the whole."""
    text = _RATE.sub("", text)
    whole = as_said(text)
    parts = [as_said(part) for part in _PIECES.split(text)]
    return [whole] if whole in _begins() or whole in _ends() else [part for part in parts if part]


def _muting(piece: str) -> str | None:
    """The mute that goes in, "" if it comes out, None if the words say nothing of it."""
    kinds = [word for word in MUTES if word != "straight" and as_said(word) == piece.removesuffix(" mute")]
    if not _MUTE.search(piece) and not kinds:
        return None
    if _OUT.search(piece):
        return ""
    named = [word for word in TRADE_WORDS.get(piece, ()) if word in MUTES]
    named += [word for word in MUTES if re.search(rf"\b{word}\b", piece)]
    return (kinds or named or ["straight"])[0]


@cache
def _known() -> tuple[Technique, ...]:
    return tuple(map(techniques.get, techniques.names()))


@cache
def _begins() -> dict[str, tuple[str, ...]]:
    """Names of techniques, in the form given by `as_said`."""
    found: dict[str, tuple[str, ...]] = {}
    for technique in _known():
        titles = (title.split(" (")[0] for title in technique.title.values())
        labels = (look.word.split(" (")[0] for look in technique.looks)
        words = (technique.key, *labels, *technique.called, *titles)
        if technique.look.trill or technique.look.edge:  # they have signs of their own
            words = (technique.key, *(look.word for look in technique.looks))
        for word in {as_said(word) for word in words} - {"", *_NOT_SAID}:
            found[word] = (*found.get(word, ()), technique.key)
    return found


@cache
def _ends() -> dict[str, tuple[str, ...]]:
    """The words that end one technique, in the form given by `as_said`."""
    found: dict[str, tuple[str, ...]] = {}
    for technique in _known():
        words = {word for look in technique.looks for word in (f"non {look.word}", look.over, look.cancel)}
        words.discard(PLAIN_END)
        for word in {as_said(word) for word in words} - {"", "non"}:
            found[word] = (*found.get(word, ()), technique.key)
    return found


@cache
def _plain() -> frozenset[str]:
    """The words that end everything."""
    return frozenset({as_said(PLAIN_END), "modo ordinario", "jeu ordinaire", "position ordinaire"})
