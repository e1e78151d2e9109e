"""A performance as a Standard MIDI File: tones on member channels with their pitch bends.

The conventions are those of MIDI Polyphonic Expression: channel 1 manages the members, each line of tones has a
member to itself and bends by up to four octaves. Strokes without pitch are percussion, on channel 10.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from gesturesmith.backends.midi import smf
from gesturesmith.backends.midi.bends import heard, sampled
from gesturesmith.backends.midi.signatures import MARKER, signatures
from gesturesmith.backends.midi.smf import Event, control, meta
from gesturesmith.backends.midi.timing import Ticks
from gesturesmith.kinds import Noise
from gesturesmith.score.music import Music
from gesturesmith.score.staves import Staff, System
from gesturesmith.tones import Performance, Tone
from gesturesmith.tones.lines import Line, decibels, lines
from gesturesmith.tones.types import Curve, at

__all__ = ["CHANGE", "RANGE", "midi"]

RANGE = 48  # half steps a member channel bends, up and down: the default of MPE 1.0
_UNBENT, _MOST = 8192, 16_383
CHANGE = 1.4  # cents: with the rounding of the bend itself, never more than a cent off
_CENTS = 100 * RANGE / _UNBENT  # of one step of the bend
_MANAGER, _DRUMS = 0, 9
_MEMBERS = (*range(1, 9), *range(10, 15))  # counted from 0; with more lines a port more
_MPE, _BEND_RANGE = 6, 0  # registered parameters
_EXPRESSION = 11
_VELOCITY = 100  # loudness is in the expression, which can change

# General MIDI and General MIDI 2 (percussion): slap, hand clap, side stick, low wood block, sticks
STROKES: dict[Noise, int] = {"slap": 28, "kiss": 39, "click": 37, "pop": 77, "tap": 31}
_BREATH_NOISE, _VOICE = 122, 54  # General MIDI programs: breath noise, voice oohs
_BREATH_KEY = 60  # for breath without a fingered pitch

_TEXT, _NAME, _INSTRUMENT, _PORT = 0x01, 0x03, 0x04, 0x21


def midi(system: System, title: str, comment: bytes) -> bytes:
    """The music of lines that sound together as a file of format 1: a track for time and markers, and one for each.

    comment  a text at the beginning of the first track
    """
    musics = [staff.music for staff in system]
    longest = max(musics, key=lambda music: music.performance.seconds)
    ticks = Ticks(longest.performance.time)
    end = max(ticks.at(music.performance.seconds) for music in musics)
    conductor: list[Event] = [(0, -2, meta(_TEXT, comment)), (0, -1, meta(_NAME, title.encode()))]
    conductor += ticks.events()
    conductor += signatures(longest)
    conductor += _markers((music.performance for music in musics), ticks)
    channels = _channels(musics)
    tracks = [smf.track(conductor, end)]
    tracks += [smf.track(_part(staff, ticks, channels, number), end) for number, staff in enumerate(system)]
    return smf.header(len(tracks)) + b"".join(tracks)


def _markers(performances: Iterable[Performance], ticks: Ticks) -> Iterator[Event]:
    """The names of the gestures where they begin."""
    begins = {(ticks.at(seconds), name): None for p in performances for seconds, name in p.begins}
    for tick, name in begins:
        yield tick, 2, meta(MARKER, name.encode())


type _Place = tuple[int, int]  # port, channel


def _channels(musics: Sequence[Music]) -> dict[tuple[int, int], _Place]:
    """A member channel for every line of every part: (part, line) -> its place."""
    found: dict[tuple[int, int], _Place] = {}
    for part, music in enumerate(musics):
        for line, _ in enumerate(_lines(music)):
            port, member = divmod(len(found), len(_MEMBERS))
            found[part, line] = port, _MEMBERS[member]
    return found


def _lines(music: Music) -> tuple[Line, ...]:
    """The lines of a part that need a channel: those of breath alone apart from the tones."""
    sounding = [t for t in music.performance.tones if not t.noise]
    return (*lines(t for t in sounding if not _breath(t)), *lines(t for t in sounding if _breath(t)))


def _breath(tone: Tone) -> bool:
    """Whether a sound is nothing but breath."""
    return not tone.pitch or (bool(tone.air) and all(value >= 1.0 for _, value in tone.air))


def _part(staff: Staff, ticks: Ticks, channels: dict[tuple[int, int], _Place], number: int) -> Iterator[Event]:
    """The track of a part."""
    music, instrument = staff.music, staff.settings.instrument
    yield 0, -9, meta(_NAME, f"{staff.name} {staff.player}".strip().encode())
    yield 0, -8, meta(_INSTRUMENT, instrument.name.encode())
    mine = [(line, channels[number, i]) for i, line in enumerate(_lines(music))]
    port = mine[0][1][0] if mine else 0
    if port:
        yield 0, -10, meta(_PORT, bytes((port,)))
    yield 0, -7, smf.registered(_MANAGER, _MPE, min(len(channels), len(_MEMBERS)))
    for line, (_, channel) in mine:
        yield 0, -6, smf.registered(channel, _BEND_RANGE, RANGE)
        yield 0, -5, smf.program(channel, _program(line, instrument.midi_program))
    yield from _techniques(music.performance, ticks)
    for line, (_, channel) in mine:
        for i, tone in enumerate(line.tones):
            yield from _tone(line, i, tone, channel, ticks)
    for tone in music.performance.tones:
        if tone.noise:
            key, begin = STROKES[tone.noise], ticks.at(tone.start)
            velocity = _expression(tone.level[0][1])
            yield begin, 6, smf.note_on(_DRUMS, key, velocity)
            yield max(ticks.at(tone.end), begin + 1), 0, smf.note_off(_DRUMS, key)


def _program(line: Line, own: int) -> int:
    if _breath(line.tones[0]):
        return _BREATH_NOISE
    return _VOICE if line.voice == "sung" else own


def _techniques(performance: Performance, ticks: Ticks) -> Iterator[Event]:
    """What is played how, where that changes."""
    before: tuple[str, ...] = ()
    for tone in performance.tones:
        if tone.voice == "played" and tone.techniques != before:
            before = tone.techniques
            yield ticks.at(tone.start), -1, meta(_TEXT, (" + ".join(before) or "ordinary").encode())


def _tone(line: Line, i: int, tone: Tone, channel: int, ticks: Ticks) -> Iterator[Event]:
    """The note of a tone, with its bends and levels. One that goes on without a new attack is the same note."""
    start, end = ticks.at(tone.start), max(ticks.at(tone.end), ticks.at(tone.start) + 1)
    key = _key(line, i)
    if tone.pitch:
        for seconds, value in sampled(heard(tone), CHANGE, lambda cents: _bend(cents, key)):
            yield min(ticks.at(seconds), end - 1), 4, smf.bend(channel, value)
    else:
        yield start, 4, smf.bend(channel, _UNBENT)
    for seconds, value in sampled(_loudness(tone), 1.0, round):
        yield min(ticks.at(seconds), end - 1), 5, control(channel, _EXPRESSION, value)
    if not _same_note(line, i):
        yield start, 6, smf.note_on(channel, key, _VELOCITY)
    if i + 1 == len(line.tones) or not _same_note(line, i + 1):
        yield end, 0, smf.note_off(channel, key)


def _same_note(line: Line, i: int) -> bool:
    return line.follows(i) and line.tones[i].onset == "continued"


def _key(line: Line, i: int) -> int:
    """The key of the note that a tone belongs to: the one nearest to its beginning."""
    while _same_note(line, i):
        i -= 1
    tone = line.tones[i]
    return min(127, max(0, round((tone.cents_at(tone.start) or 0.0) / 100))) if tone.pitch else _BREATH_KEY


def _bend(cents: float, key: int) -> int:
    return min(_MOST, max(0, _UNBENT + round((cents - 100 * key) / _CENTS)))


def _loudness(tone: Tone) -> Curve:
    """The expression over time: of the tone, or of the breath where nothing else sounds."""
    times = sorted({t for t, _ in tone.level} | {t for t, _ in tone.air})
    rows: list[tuple[float, float]] = []
    for t in times:
        for before in (True, False):
            share = 1.0 - at(tone.air, t, before=before) if not _breath(tone) else 1.0
            rows.append((t, max(1.0, _expression(at(tone.level, t, before=before)) * share)))
    return tuple(rows)


def _expression(place: float) -> int:
    """The value of controller 11 for a place in LEVELS: General MIDI takes 40 log10(value / 127) decibels."""
    return max(1, min(127, round(127 * 10 ** (decibels(place) / 40))))
