"""The lines of a notated part: for each player the phrases, from rest to rest, as gestures.

Voices and the notes of chords are players. In free time each bar is a phrase, whatever silences it has.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import lru_cache

from gesturesmith import instruments, techniques, wording
from gesturesmith.importers import signs
from gesturesmith.importers.bass_clef import as_today
from gesturesmith.importers.fingered import LEFT_TO_PLAYER, fingering, side_of
from gesturesmith.importers.notated import NotatedBar, NotatedNote, NotatedPart, NotatedScore
from gesturesmith.importers.said import said
from gesturesmith.importers.times import ScoreTimes
from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import AskedHead, EdgeShape, Extreme, Join, LineKind
from gesturesmith.lang.words import ACCENTS, SECONDS
from gesturesmith.model.builder import NewFingering, NewGesture, NewLevel, NewPoint
from gesturesmith.model.context import MAX_BEATS
from gesturesmith.source import as_said
from gesturesmith.techniques.base import Technique, clash
from gesturesmith.units import Interval, Spelling
from gesturesmith.values import frozen

MAX_POINTS = 400  # of a phrase; a longer one is divided at a tongued note
_STEADY = ("n", "ppp", "pp", "p", "mp", "mf", "f", "ff", "fff")
_UNKNOWN = "mf"  # a level where the part has none, as the checker assumes
_STROKES = {1: "eighths", 2: "sixteenths", 3: "thirty-seconds"}
_EXTREMES: dict[str, Extreme] = {"triangle": "highest", "inverted triangle": "lowest"}
_SCRIPTS = ("stopped", "half-stopped", "double-dots", "triple-dots")
_HOW_STRUCK = ("measured", "unmeasured")
_EVEN = Fraction(1)
_AT_THE_BELL = ("bell", "cover")
_EDGES = ("edge-in", "edge-off")
_SIGNED = frozenset({
    "scoop", "plop", "rip", "doit", "short-doit", "long-doit", "doit-at-once", "fall", "short-fall", "long-fall",
    "fall-at-once", "flip", "smear",
})  # fmt: skip
_HEADS: dict[str, AskedHead] = {"diamond": "diamond"}
_WITH_STEM = "harmon"
_COVERED = ("plunger", "harmon")  # mutes that a hand opens and closes


@frozen(kw_only=True)
class ScorePlace:
    """A place in a score: the index of its bar, and the time in it, in quarters."""

    bar: int
    at: Fraction


@frozen(kw_only=True)
class Phrase:
    """What a player plays without a rest.

    at       when it begins, in quarters of the played score
    gesture  its content; times are quarters from its beginning
    places   of each of its points
    continues   whether a tie, slur or line leads to its first note
    untold      what it cannot say of what stands there, in words
    """

    at: Fraction
    gesture: NewGesture
    places: tuple[ScorePlace, ...]
    continues: bool = False
    untold: str = ""

    @property
    def lasts(self) -> Fraction:
        return self.gesture.lasts or Fraction(0)


@frozen(kw_only=True)
class PlayerLine:
    """What one player of a part plays. `player` from 0; `players` of the part in all."""

    part: NotatedPart
    player: int
    players: int
    phrases: tuple[Phrase, ...]


@dataclass(slots=True)
class _PlayedNote:
    """A note as it is played, ties joined."""

    at: Fraction
    ends: Fraction
    note: NotatedNote
    bar: int
    graces: list[NotatedNote] = field(default_factory=list)
    after: list[NotatedNote] = field(default_factory=list)
    stop: NotatedNote | None = None


@frozen
class _Force:
    """What words have asked for from a time on: techniques and the mute."""

    at: Fraction
    techniques: tuple[str, ...] = ()
    mute: str = ""

    @property
    def of_edges(self) -> bool:
        return any(techniques.get(key).layer in _EDGES for key in self.techniques)


@dataclass(slots=True)
class _Directions:
    """Everything beside the notes of a part, in the order in which it is played.

    force    what words ask for
    slides   ways of sliding that words name, with their times
    opened   when words free the bell
    counted  whether three strokes without a word are counted, as in what we write ourselves
    struck   words for strokes by their times: "measured", "unmeasured"
    levels   steady levels and accents
    wedges   beginnings and ends of hairpins
    sides    shades and sides that words beside fingerings name
    """

    force: list[_Force] = field(default_factory=lambda: [_Force(Fraction(0))])
    slides: list[tuple[Fraction, tuple[str, ...]]] = field(default_factory=list)
    counted: bool = False
    opened: list[Fraction] = field(default_factory=list)
    struck: dict[Fraction, str] = field(default_factory=dict)
    levels: list[tuple[Fraction, str]] = field(default_factory=list)
    wedges: list[tuple[Fraction, Join, Fraction, bool]] = field(default_factory=list)
    sides: dict[Fraction, tuple[str, str]] = field(default_factory=dict)


def lines(
    score: NotatedScore, part: NotatedPart, clock: ScoreTimes, cuts: Sequence[Fraction] = ()
) -> tuple[PlayerLine, ...]:
    """What each player of a part plays.

    cuts   times, in quarters of the played score, at which notes and phrases are divided
    """
    part = part if score.ours else as_today(part)
    beside = _beside(part, clock)
    beside.counted = score.ours
    rows = [_cut(row, cuts) for row in _players(part, clock)]
    return tuple(
        PlayerLine(
            part=part,
            player=number,
            players=len(rows),
            phrases=tuple(_phrases(score, part, beside, sounds, frozenset(cuts))),
        )
        for number, sounds in enumerate(rows)
    )


@lru_cache(maxsize=256)
def as_written(key: str, sounding: Interval) -> Instrument:
    """An instrument with the pitches of a part: of a horn in E-flat the double horn, written a sixth higher."""
    instrument = instruments.get(key)
    if sounding.cents == instrument.sounding.cents:
        return instrument
    moved = instrument.sounding.cents - sounding.cents
    by = Interval(instrument.sounding.steps - sounding.steps, moved)
    return replace(
        instrument,
        sounding=sounding,
        registers=tuple(
            replace(r, low=r.low.transposed(by), high=r.high.transposed(by)) for r in instrument.registers
        ),
        chart={cents + int(moved): tube for cents, tube in instrument.chart.items()},
        hand_chart={cents + int(moved): tube for cents, tube in instrument.hand_chart.items()},
        clefs=tuple((clef, lowest + int(moved)) for clef, lowest in instrument.clefs),
    )


def _beside(part: NotatedPart, clock: ScoreTimes) -> _Directions:
    found = _Directions()
    techs: tuple[str, ...] = ()
    mute = ""
    open_wedge: tuple[Fraction, Join, bool] | None = None
    for played in clock.bars:
        for word in sorted(part.bars[played.index].words, key=lambda w: w.at):
            at = played.at + word.at
            if word.kind == "level":
                found.levels.append((at, word.text))
            elif word.kind in ("crescendo", "diminuendo"):
                open_wedge = (at, "<" if word.kind == "crescendo" else ">", word.text == "n")
            elif word.kind == "wedge-end" and open_wedge is not None:
                if at > open_wedge[0]:
                    niente = open_wedge[2] or word.text == "n"
                    found.wedges.append((open_wedge[0], open_wedge[1], at, niente))
                open_wedge = None
            elif word.kind == "mute":
                mute = word.text
                techs = tuple(key for key in techs if key not in _mutes())
                techs = _joined(techs, _mutes()) if mute else techs
                found.force.append(_Force(at, techs, mute))
            elif word.kind == "words":
                side = side_of(word.text)
                if side is not None:
                    found.sides[at] = side
                asked = said(word.text)
                for how in _HOW_STRUCK:
                    if as_said(word.text) in _struck_words(how):
                        found.struck[at] = how
                if any(techniques.get(key).layer in _AT_THE_BELL for key in asked.ends) or asked.plain:
                    found.opened.append(at)
                if asked.slides:
                    found.slides.append((at, asked.slides))
                if not (asked.turns_to or asked.ends or asked.plain):
                    continue
                if asked.plain:
                    found.slides.append((at, ()))
                # With a plunger in the hand, "open" is what the hand does.
                ends = [key for key in asked.ends if mute not in _COVERED or key not in _mutes() or _out(word.text)]
                techs = () if asked.plain else tuple(key for key in techs if key not in ends)
                techs = _joined(techs, asked.turns_to)
                stems = [key for key in asked.turns_to if techniques.get(key).layer == "stem"]
                if stems and mute != _WITH_STEM:  # nobody says of what the stem is
                    techs = _joined(techs, (*_mutes(), *stems))
                    mute = _WITH_STEM
                elif asked.mute and asked.mute != _WITH_STEM:
                    techs = tuple(key for key in techs if techniques.get(key).layer != "stem")
                muted = any(key in _mutes() for key in techs)
                mute = (asked.mute or mute or "straight") if muted else ""
                found.force.append(_Force(at, techs, mute))
    return found


@lru_cache(maxsize=1)
def _mutes() -> tuple[str, ...]:
    return tuple(name for name in techniques.names() if techniques.get(name).takes_mute)


def _joined(techs: tuple[str, ...], more: Iterable[str]) -> tuple[str, ...]:
    """Techniques with more of them, which replace those that they cannot be joined with."""
    for key in more:
        new = techniques.get(key)
        techs = (*(k for k in techs if k != key and not clash(new, techniques.get(k))), key)
    return techs


def _out(text: str) -> bool:
    """Whether words take out a mute, and do not only open it."""
    return set(said(text).ends) <= set(_mutes())


@lru_cache(maxsize=2)
def _struck_words(how: str) -> frozenset[str]:
    """The words for strokes that are counted or as fast as possible, in every language."""
    return frozenset(as_said(wording.text(how, language)) for language in wording.languages())


def _players(part: NotatedPart, clock: ScoreTimes) -> list[list[_PlayedNote]]:
    """The notes of each player, ties joined: of each voice the notes of its chords from the top down."""
    split: dict[int, dict[tuple[str, int], list[_PlayedNote]]] = {}
    rows: defaultdict[tuple[str, int], list[_PlayedNote]] = defaultdict(list)
    waiting: dict[tuple[str, int], list[NotatedNote]] = {}
    for played in clock.bars:
        if played.index not in split:
            split[played.index] = _split(part.bars[played.index], played.index)
        for who, sounds in split[played.index].items():
            row = rows[who]
            for one in sounds:
                at = played.at + one.at
                sound = _PlayedNote(at, played.at + one.ends, one.note, one.bar, list(one.graces), [], one.stop)
                if one.note.grace:  # those at the end of a bar, before whatever comes
                    waiting[who] = sound.graces
                    continue
                early = waiting.pop(who, [])
                before = row[-1] if row else None
                if before is not None and before.ends > sound.at:
                    if before.at >= sound.at:
                        continue
                    before.ends = sound.at
                if early and before is not None and before.ends < sound.at:
                    before.after = early
                elif early:
                    sound.graces = [*early, *sound.graces]
                if before is not None and _tied(before, sound):
                    before.ends = sound.ends
                    added = tuple(m for m in sound.note.marks if m in ("fermata", "breath"))
                    # A line may leave any of the heads: the last may be hidden, and only say how long it sounds.
                    leads = sound.note if sound.note.line != "none" else before.note
                    # A tied eighth beside eighths in strokes has none: it is one of them.
                    struck = before.note if before.note.strokes else sound.note
                    before.note = replace(
                        before.note,
                        line=leads.line,
                        named=leads.named,
                        ties=sound.note.ties,
                        marks=tuple(dict.fromkeys((*before.note.marks, *added))),
                        strokes=struck.strokes,
                        lasts=struck.lasts,
                    )
                    before.stop = sound.stop if leads.line != "none" else None
                else:
                    row.append(sound)
    for who, left in waiting.items():
        if rows[who]:
            rows[who][-1].after = left
    return [row for _, row in sorted(rows.items()) if row]


def _tied(before: _PlayedNote, sound: _PlayedNote) -> bool:
    return (
        sound.note.tied
        and before.note.ties
        and before.ends == sound.at
        and not sound.graces
        and before.note.written.pitch_cents == sound.note.written.pitch_cents
    )


def _split(bar: NotatedBar, index: int) -> dict[tuple[str, int], list[_PlayedNote]]:
    """The notes of a bar by player, times from its beginning. Grace notes belong to the upper note."""
    voices: defaultdict[str, list[NotatedNote]] = defaultdict(list)
    for note in bar.notes:
        voices[note.voice].append(note)
    found: defaultdict[tuple[str, int], list[_PlayedNote]] = defaultdict(list)
    for voice, notes in voices.items():
        graces: list[NotatedNote] = []
        chords: dict[Fraction, tuple[list[NotatedNote], list[NotatedNote]]] = {}
        last: Fraction | None = None
        stops: dict[Fraction, NotatedNote] = {}
        for note in notes:
            if note.stops and last is not None:
                # Where a line stops, which may leave an earlier head of tied ones; after anything else it is the
                # other note of a trill.
                if any(one.line != "none" or one.tied for one in chords[last][0]):
                    stops[last] = note
            elif note.grace:
                graces.append(note)
            elif note.at in chords:
                chords[note.at][0].append(note)
            else:
                chords[note.at] = ([note], graces)
                graces, last = [], note.at
        for at, (members, before) in sorted(chords.items()):
            first = members[0]
            for k, note in enumerate(sorted(members, key=lambda n: -n.written.pitch_cents)):
                note = note if note is first else _like(note, first)
                found[voice, k].append(
                    _PlayedNote(at, at + note.lasts, note, index, before if not k else [], stop=stops.get(at))
                )
        if graces:
            found[voice, 0].append(_PlayedNote(bar_end(notes), bar_end(notes), graces[0], index, graces))
    return found


def bar_end(notes: Iterable[NotatedNote]) -> Fraction:
    """Where the last of these notes ends."""
    return max((note.at + note.lasts for note in notes), default=Fraction(0))


def _cut(row: list[_PlayedNote], cuts: Sequence[Fraction]) -> list[_PlayedNote]:
    """The notes, those that are held beyond a cut in pieces."""
    if not cuts:
        return row
    found: list[_PlayedNote] = []
    for sound in row:
        inside = [cut for cut in cuts if sound.at < cut < sound.ends]
        starts = [sound.at, *inside]
        for n, (start, end) in enumerate(zip(starts, [*inside, sound.ends], strict=True)):
            own = replace(sound, at=start, ends=end) if inside else sound
            if n:
                note = replace(sound.note, tied=True, marks=(), at=sound.note.at + (start - sound.at))
                own = replace(own, note=note, graces=[])
            if end != sound.ends:
                own = replace(own, after=[], stop=None)
            found.append(own)
    return found


def _like(note: NotatedNote, first: NotatedNote) -> NotatedNote:
    """A note of a chord with the signs of its first one, which stand there for all."""
    return replace(
        note,
        slurred=note.slurred or first.slurred,
        marks=note.marks or first.marks,
        signs=note.signs or first.signs,
        strokes=note.strokes or first.strokes,
        other=note.other or first.other,
    )


def _phrases(
    score: NotatedScore,
    part: NotatedPart,
    beside: _Directions,
    sounds: Sequence[_PlayedNote],
    cuts: frozenset[Fraction],
) -> Iterator[Phrase]:
    row: list[_PlayedNote] = []
    for sound in sounds:
        if row and (sound.at in cuts or _breaks(score, row, sound)):
            yield _phrase(score, part, beside, row)
            row = []
        row.append(sound)
    if row:
        yield _phrase(score, part, beside, row)


def _breaks(score: NotatedScore, row: list[_PlayedNote], sound: _PlayedNote) -> bool:
    before = row[-1]
    if score.bars[before.bar].free or score.bars[sound.bar].free:
        return before.bar != sound.bar or before.stop is not None
    if before.ends < sound.at or before.stop is not None or before.after:
        return True
    if sound.ends - row[0].at > MAX_BEATS:
        return True
    if "tremolo" in before.note.signs or "tremolo" in sound.note.signs:
        return True
    return len(row) >= MAX_POINTS and not sound.note.slurred and before.note.line == "none"


def _phrase(score: NotatedScore, part: NotatedPart, beside: _Directions, row: list[_PlayedNote]) -> Phrase:
    """The gesture of notes that follow each other."""
    bar = row[0].bar
    free = score.bars[bar].free
    # In free time a bar is a gesture, with the silences before, between and after its notes.
    start = row[0].at - row[0].note.at if free else row[0].at
    ends = max(start + score.bars[bar].lasts, row[-1].ends) if free and row[-1].stop is None else row[-1].ends
    instrument = as_written(part.key, part.bars[bar].sounding)
    points: list[NewPoint] = []
    places: list[ScorePlace] = []
    wanted: list[tuple[str, ...]] = []
    now = start
    line: LineKind = "none"
    sliding: tuple[str, ...] = ()
    struck = False
    for n, sound in enumerate(row):
        note = sound.note
        place = ScorePlace(bar=sound.bar, at=note.at)
        if sound.at > now:
            points.append(NewPoint(pitch=None, at=now - start))
            places.append(ScorePlace(bar=sound.bar, at=note.at - (sound.at - now)))
            wanted.append(wanted[-1] if wanted else _asked(beside, instrument, sound, (), (), now)[0])
            line, sliding = "none", ()
        follows = n + 1 < len(row) and row[n + 1].at == sound.ends
        goes_on = note.line if follows or sound.stop is not None else "none"
        target = row[n + 1].note if follows else sound.stop
        moves = target is not None and target.written.pitch_cents != note.written.pitch_cents
        new = _ways(beside, instrument, sound, row[0].at) if goes_on != "none" and moves else ()
        freed = n and any(row[n - 1].at < at <= sound.at for at in beside.opened)
        by_line = wanted[-1] if line != "none" and not freed else ()
        keys, strokes = _asked(
            beside, instrument, sound, new or (sliding if line != "none" else ()), by_line, row[0].at
        )
        slurred = (sound.graces[0] if sound.graces else note).slurred
        join: LineKind = line if line != "none" else "slur" if slurred and n and sound.at == now else "none"
        if (strokes or struck) and join == "slur":
            join = "none"
        struck = bool(strokes)
        if join == "slur" and sound.graces and not all(one.slurred for one in (*sound.graces[1:], note)):
            join = "none"  # a slur to a grace note goes on to its note
        point = _point(instrument, sound, sound.at - start, join, strokes)
        if point.graces and join not in ("none", "slur"):  # a line leads from a grace note, not to it
            last = replace(point.graces[-1], line=join)
            point = replace(point, line="none", graces=(*point.graces[:-1], last))
        points.append(point)
        places.append(place)
        wanted.append(keys)
        line, sliding, now = goes_on, new, sound.ends
        if sound.stop is not None and line != "none":
            points.append(NewPoint(pitch=sound.stop.written, about=sound.stop.head == "x", line=line))
            places.append(ScorePlace(bar=sound.bar, at=note.at + (sound.ends - sound.at)))
            wanted.append(keys)
    if now < ends:
        points.append(NewPoint(pitch=None, at=now - start))
        places.append(ScorePlace(bar=row[-1].bar, at=now - start))
        wanted.append(wanted[-1])
    if any(_between_semitones(one) for p in points for one in (p, *p.graces, *p.after)):
        quarter = signs.of_quarter_tones()
        layer = techniques.get(quarter).layer
        there = [any(techniques.get(key).layer == layer for key in keys) for keys in wanted]
        wanted = [keys if known else (*keys, quarter) for keys, known in zip(wanted, there, strict=True)]
    # After its note a grace note can only be the last.
    points = [replace(p, after=()) if p.after and p is not points[-1] else p for p in points]
    common, changed = _turning(points, wanted)
    force = _force_at(beside, row[0].at)
    gesture = NewGesture(
        instrument=instrument,
        points=changed,
        name=f"bar-{bar + 1}",
        lasts=ends - start,
        techniques=common,
        dynamics=_levels(beside, start, ends, row),
        mute=(force.mute or None) if any(key in _mutes() for keys in wanted for key in keys) else None,
        trill=_trill(row, wanted),
        fingering=_fingerings(beside, instrument, row),
    )
    continues = row[0].note.tied or row[0].note.slurred
    wide = any("trill" in sound.note.signs and sound.note.other in SECONDS for sound in row)
    unread = any(s.note.fingering and fingering(instrument, s.note.fingering) is None for s in row)
    rows = {
        "the interval of a trill": wide and not gesture.trill,
        "a fingering that the instrument does not have": unread,
    }
    untold = ", ".join(what for what, there in rows.items() if there)
    return Phrase(at=start, gesture=gesture, places=tuple(places), continues=continues, untold=untold)


def _between_semitones(point: NewPoint) -> bool:
    return isinstance(point.pitch, Spelling) and point.pitch.alter.denominator == 2 and not point.about


def _point(instrument: Instrument, sound: _PlayedNote, at: Fraction, join: LineKind, strokes: str) -> NewPoint:
    note = sound.note
    marks = (*note.marks, *((strokes,) if strokes else ()), *(("open",) if "open" in note.signs else ()))
    pitch: Spelling | Extreme = _EXTREMES.get(note.head, note.written)
    return NewPoint(
        pitch=pitch,
        about=note.head == "x" or not note.exact,
        at=at,
        line=join,
        marks=marks,
        graces=tuple(_grace(g, n, sound.graces, note) for n, g in enumerate(sound.graces)),
        after=tuple(NewPoint(pitch=g.written, line="slur" if g.slurred else "none") for g in sound.after),
    )


def _grace(grace: NotatedNote, n: int, row: list[NotatedNote], note: NotatedNote) -> NewPoint:
    """A grace note with the line that leads on from it."""
    after = row[n + 1] if n + 1 < len(row) else note
    line: LineKind = grace.line if grace.line != "none" else "slur" if after.slurred else "none"
    marks = tuple(m for m in grace.marks if m in ("accent", "staccato", "tenuto", "marcato"))
    return NewPoint(pitch=grace.written, about=grace.head == "x", line=line, marks=marks)


def _force_at(beside: _Directions, at: Fraction) -> _Force:
    return beside.force[bisect_right(beside.force, at, key=lambda row: row.at) - 1]


def _asked(
    beside: _Directions,
    instrument: Instrument,
    sound: _PlayedNote,
    sliding: tuple[str, ...],
    before: tuple[str, ...],
    start: Fraction,
) -> tuple[tuple[str, ...], str]:
    """The techniques that a note is played with, and its strokes in the language's word.

    start    of the phrase
    before   those of the note from which a line leads here: the hand stays where a sign has put it
    """
    note = sound.note
    now = _force_at(beside, sound.at)
    force = now.techniques
    if not now.of_edges and not (note.signs or note.strokes or sliding or before or note.head in _HEADS):
        return force, ""
    strokes = ""
    own: list[str] = list(sliding)
    edges = [key for sign in note.signs if (key := signs.of_edge(_edge(sign)))]
    if not edges and now.at != sound.at:
        # A word for an edge that has a sign belongs to the signs, or to the one note at which it stands.
        force = tuple(key for key in force if techniques.get(key).look.edge not in _SIGNED)
    layers = {techniques.get(key).layer for key in force}
    own += [key for key in edges if techniques.get(key).layer not in layers]
    if note.head in _HEADS and not any(techniques.get(key).look.head == _HEADS[note.head] for key in force):
        own.append(signs.of_head(_HEADS[note.head]))
    if before and not any(sign in (*_SCRIPTS, "open") for sign in note.signs):
        own += [key for key in before if techniques.get(key).layer in _AT_THE_BELL]
    by_hand = any(techniques.get(key).look.motion == "hand" for key in sliding)  # the signs are those of its motion
    for sign in note.signs:
        if sign in _SCRIPTS and by_hand:
            continue
        if sign in _SCRIPTS:
            hand = instrument.has_hand and not now.mute
            own.append(signs.of_script(sign, hand=hand))
        elif sign in ("trill", "tremolo") and any(techniques.get(key).trill for key in force):
            continue  # words say which
        elif sign == "trill":
            kind = "same" if note.other == "same" else "above"
            own.append(signs.of_trill(kind, valves=instrument.gives("valves")))
        elif sign == "tremolo":
            own.append(signs.of_trill("other", valves=instrument.gives("valves")))
        elif sign == "bend":
            own.append(signs.of_motion("bend"))
        elif sign == "ghost":
            own.append(signs.of_head("ghost"))
    roll = signs.of_strokes()
    if note.strokes < 0:
        strokes = "unmeasured"
    elif note.strokes:
        strokes = _measured(note, sound.ends - sound.at)
        how = next((text for at, text in reversed(beside.struck.items()) if start <= at <= sound.at), "")
        if how == "unmeasured":
            strokes = how
        elif roll in force or (note.strokes == max(_STROKES) and not how and not beside.counted):
            strokes = ""
            own.append(roll)
    keys = _joined(force, (key for key in own if key))
    return tuple(key for key in keys if techniques.get(key).layer != "none"), strokes


def _edge(sign: str) -> EdgeShape:
    return sign  # type: ignore[return-value]  # what is none of them names no technique


def _measured(note: NotatedNote, lasts: Fraction) -> str:
    """The value of the repeats that strokes stand for, with the flags of the note; "" if they do not fill it."""
    flags = 0
    while Fraction(1, 2**flags) > note.lasts and flags < 3:
        flags += 1
    word = _STROKES.get(min(3, note.strokes + flags), "")
    value = {"eighths": Fraction(1, 2), "sixteenths": Fraction(1, 4), "thirty-seconds": Fraction(1, 8)}.get(word)
    return word if value is not None and lasts % value == 0 and lasts > value else ""


def _ways(beside: _Directions, instrument: Instrument, sound: _PlayedNote, start: Fraction) -> tuple[str, ...]:
    """The way of sliding from a note: the one that words name here or since the beginning of the phrase, on a slide
    the slide, else none."""
    named = said(sound.note.named).slides if sound.note.named else ()
    if not named:
        named = next((keys for at, keys in reversed(beside.slides) if start <= at < sound.ends), ())
    kinds = tuple(map(techniques.get, named))
    if len(kinds) == 1 and instrument.gives(kinds[0].needs):
        return named
    if instrument.kind == "slide":
        return tuple(t.key for t in _slides())[:1]
    return ()


@lru_cache(maxsize=1)
def _slides() -> tuple[Technique, ...]:
    return tuple(t for t in map(techniques.get, techniques.names()) if t.path == "slide" and t.needs == "slide")


def _turning(points: list[NewPoint], wanted: list[tuple[str, ...]]) -> tuple[tuple[str, ...], tuple[NewPoint, ...]]:
    """The techniques of all points, and the points with what begins and ends at each."""
    sounding = [keys for keys, p in zip(wanted, points, strict=True) if p.pitch is not None]
    common = tuple(key for key in sounding[0] if all(key in keys for keys in sounding))
    if all(keys == sounding[0] for keys in wanted) and common == sounding[0]:
        return common, tuple(points)
    now = common
    turned: list[NewPoint] = []
    for point, keys in zip(points, wanted, strict=True):
        begins = tuple(key for key in keys if key not in now)
        layers = {techniques.get(key).layer for key in begins}
        # What begins replaces its layer, unless it is joined to what stays.
        begins += tuple(key for key in keys if key in now and techniques.get(key).layer in layers)
        ends = tuple(key for key in now if key not in keys and techniques.get(key).layer not in layers)
        if point.pitch is None:
            begins, ends, keys = (), (), now
        turned.append(replace(point, turns_to="+".join(begins), ends=ends) if begins or ends else point)
        now = keys
    return common, tuple(turned)


def _fingerings(beside: _Directions, instrument: Instrument, row: list[_PlayedNote]) -> tuple[NewFingering, ...]:
    """The fingerings that are written, one for each point that sounds; () if there are none."""
    found: list[NewFingering] = []
    for sound in row:
        side = beside.sides.get(sound.at, ("", ""))
        stop = sound.stop if sound.note.line != "none" else None
        for note in (sound.note, stop):
            if note is not None:
                asked = fingering(instrument, note.fingering, side) if note.fingering else None
                found.append(asked or LEFT_TO_PLAYER)
    return tuple(found) if any(one is not LEFT_TO_PLAYER for one in found) else ()


def _trill(row: list[_PlayedNote], wanted: Iterable[Iterable[str]]) -> str:
    """The interval of the trills of a phrase, if it is written and the same for all; "" for the usual one.

    Beside a tremolo or a trill on one pitch a gesture cannot name it.
    """
    if any(techniques.get(key).trill in ("same", "other") for keys in wanted for key in keys):
        return ""
    found = {sound.note.other for sound in row if "trill" in sound.note.signs}
    return SECONDS.get(next(iter(found)), "") if len(found) == 1 else ""


def _levels(beside: _Directions, start: Fraction, ends: Fraction, row: list[_PlayedNote]) -> tuple[NewLevel, ...]:
    """The levels of a phrase: the one in force at its beginning, those inside, and the hairpins between them."""
    first = row[0].at
    upto = bisect_right(beside.levels, first, key=lambda level: level[0])
    before = next((text for _, text in reversed(beside.levels[:upto]) if text not in ACCENTS), "")
    rows: dict[Fraction, tuple[str, Join]] = {}
    if before:
        rows[Fraction(0)] = (before, "")
    for at, text in beside.levels[max(0, upto - 2) :]:
        if at >= ends:
            break
        if at >= first:
            rows[max(Fraction(0), at - start)] = (text, "")
    for begins, join, stops, niente in beside.wedges:
        if stops <= first or begins >= ends:
            continue
        a, z = max(begins, first) - start, min(stops, ends) - start
        level = next((text for at, (text, _) in sorted(rows.items(), reverse=True) if at <= a), before or _UNKNOWN)
        level = level if level not in ACCENTS else "f"
        if niente and join == "<" and begins >= first:
            level = "n"
        rows[a] = (rows[a][0] if a in rows and rows[a][0] != before and level != "n" else level, join)
        inside = [at for at in rows if a < at <= z]
        later = next(
            (text for at, text in beside.levels if stops - _EVEN / 4 <= at + start * 0 <= stops + _EVEN), ""
        )
        if inside and max(inside) >= z - _EVEN / 4:
            continue
        target = "n" if niente and join == ">" else later or _stepped(level, join)
        for at in inside:
            del rows[at]
        rows[z] = (target, "")
    ordered = sorted(rows.items())
    return tuple(
        NewLevel(
            level=text,
            at=None if n and ordered[n - 1][1][1] and at == ends - start else at,
            join=join if n + 1 < len(ordered) else "",
        )
        for n, (at, (text, join)) in enumerate(ordered)
    )


def _stepped(level: str, join: Join) -> str:
    """The level a hairpin leads to where none is written: one louder or softer."""
    place = _STEADY.index(level) + (1 if join == "<" else -1)
    return _STEADY[max(1, min(len(_STEADY) - 1, place))]
