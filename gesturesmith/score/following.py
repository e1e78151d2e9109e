"""Pieces of music that follow each other on a page: a mute still in at the end of one is cancelled in the next.

Each piece by itself says all it needs from an instrument without mute; only a page knows what came before.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from gesturesmith.score.marks import TechniqueLabel
from gesturesmith.score.music import Event, Music
from gesturesmith.techniques import get
from gesturesmith.techniques.base import PLAIN_END, Technique


def following(music: Music, before: Sequence[Music]) -> Music:
    """The music as it stands after what was played `before` it (two players may both read on): if that ends with a
    mute in and this begins without, its first note or rest says "senza sord.". A mute that stays in is named by the
    music itself."""
    sounding = [event for event in _events(music) if event.sounds]
    if not sounding or any(technique.takes_mute for technique in _techniques(sounding[0])):
        return music
    left = (one for other in before for one in _left(other))
    words = dict.fromkeys(one.look.cancel for one in left if one.look.cancel not in ("", PLAIN_END))
    part = music.parts[0]
    first, *more = part.played.events
    said = {label.word for label in first.labels}
    new = tuple(TechniqueLabel(word=word, first=word, later=word) for word in words if word not in said)
    if not new:
        return music
    first = replace(first, labels=(*new, *first.labels))
    part = replace(part, played=replace(part.played, events=(first, *more)))
    return replace(music, parts=(part, *music.parts[1:]))


def silent(music: Music) -> bool:
    """Whether it has only rests, through which a mute stays in."""
    return not any(event.sounds for event in _events(music))


def _left(music: Music) -> Iterator[Technique]:
    """The ways to play with a mute that are in force at its end."""
    last = next((event for event in reversed([*_events(music)]) if event.sounds), None)
    if last is not None:
        yield from (technique for technique in _techniques(last) if technique.takes_mute)


def _events(music: Music) -> Iterator[Event]:
    return (event for part in music.parts for event in part.played.everything)


def _techniques(event: Event) -> tuple[Technique, ...]:
    return tuple(get(key) for key in event.techniques)
