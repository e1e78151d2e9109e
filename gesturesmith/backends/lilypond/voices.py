"""A score as an Abjad score, and as LilyPond text. Abjad neither respells nor splits anything: it is given names
and values, and attaches beams, ties, tuplets, slurs and dynamics to them."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from gesturesmith.backends.lilypond import marks
from gesturesmith.backends.lilypond._abjad import abjad
from gesturesmith.backends.lilypond.leaves import (
    GRACE,
    PLAYS_ON,
    Components,
    LeafBuilder,
    Placed,
    add_stop,
    beam,
    duration,
    feathered,
    put_after,
    put_before,
    silent,
)
from gesturesmith.lytext import LyText, code, quoted
from gesturesmith.score.dynamics import apart_from
from gesturesmith.score.marks import DynamicLevel
from gesturesmith.score.music import Event, Music, Part, RepeatedStretch
from gesturesmith.score.rhythm import GRACE_VALUE, Leaf, Meter, Tuplet

_UNBROKEN = Fraction(8)  # beats of a gesture kept on one line


def pieces(music: Music) -> tuple[LyText, ...]:
    """The LilyPond text of one voice, split at footnote marks. It names no voice: cues and combined parts put the
    notes into their own."""
    meter = music.bars
    made = _built(music, meter)
    first = next((component for _, components in made for component in components), None)
    if isinstance(first, abjad.Container) and first.simultaneous():
        # Before anything is played there is no voice yet, and each simultaneous expression would begin its own: a
        # hairpin would never reach the level that ends it.
        abjad.attach(abjad.LilyPondLiteral("<>", site="before"), first)
    whole = abjad.Container(_repeated(made, music))
    text = str(abjad.lilypond(whole))  # type: ignore[no-untyped-call]  # Abjad leaves it unannotated
    return tuple(code(piece) for piece in text.split(marks.FOOTNOTE_MARK))


def _built(music: Music, meter: Meter) -> list[tuple[Part, Components]]:
    """The components of all parts: of a tuplet that reaches into the next part, the leaves there belong to that."""
    owner = {event.key: n for n, part in enumerate(music.parts) for event in part.played.events}
    builder = LeafBuilder({e.key: e for part in music.parts for e in part.played.events}, music, meter)
    ahead: Placed = []
    made = []
    for n, part in enumerate(music.parts):
        components = builder.components(part.played.leaves)
        placed, builder.placed = builder.placed, []
        if music.meter is None and not part.fan:
            _let_break(part.played.leaves, components)
        ahead += placed
        own = [(leaf, there) for leaf, there in ahead if owner[leaf.key] == n]
        ahead = [(leaf, there) for leaf, there in ahead if owner[leaf.key] > n]
        made.append((part, _finish(part, components, placed, own, music, meter)))
    return made


def _let_break(run: Sequence[Leaf | Tuplet], made: Components) -> None:
    """In a long gesture without bar lines, places where a line may end: where an event begins or goes on silently,
    every few beats."""
    if not run:
        return
    last = _first(run[0]).at
    if sum((_beats(item) for item in run), Fraction(0)) <= _UNBROKEN:
        return
    for item, before in zip(run[1:], made, strict=False):
        leaf = _first(item)
        if (leaf.first or leaf.kind in ("skip", "rest")) and leaf.at - last >= _UNBROKEN / 2:
            _allow_break([before], keep=True)
            last = leaf.at


def _beats(item: Leaf | Tuplet) -> Fraction:
    if isinstance(item, Tuplet):
        return sum((leaf.value for leaf in item.leaves), Fraction(0)) * item.factor
    return item.value


def _first(item: Leaf | Tuplet) -> Leaf:
    return item.leaves[0] if isinstance(item, Tuplet) else item


def _finish(part: Part, made: Components, placed: Placed, own: Placed, music: Music, meter: Meter) -> Components:
    """The components of a part: its leaves, the head where its line stops, dynamics, a second voice.

    placed  leaves of the components; a tuplet among them may reach into the next part
    own     leaves of the part, including those in a tuplet that reaches into it from the part before
    """
    end = add_stop(part.played.stop, made, own, music) if part.played.stop is not None else None
    if part.fan:
        made = [feathered(made, part.fan)]
    track = _attach_levels(part, own, end, placed[0][0].at - part.at if placed else None)
    beam(placed)
    if part.sung is not None:
        return [_two_voices(part, made, track, music, meter)]
    if track:
        return [abjad.Container([abjad.Container(made), abjad.Container(track)], simultaneous=True)]
    return made


# --- dynamics --------------------------------------------------------------------------------------------------


def _attach_levels(part: Part, own: Placed, end: abjad.Leaf | None, begins: Fraction | None) -> Components:
    """Attach dynamics to the leaves that begin with them; if one falls between leaves, all go on a track of skips.

    A level at the very end goes under the head where the line stops, or just before what comes next. The track
    begins with the part's components, at `begins`; earlier levels are at leaves of a tuplet that the part before
    began.
    """
    ending = [level for level in part.levels if level.at >= part.beats]
    inner = [level for level in part.levels if level.at < part.beats]
    if ending:
        last = end if end is not None else _place_after(_last_sounding(own))
        for level in ending:
            _attach_level(level, last, at_end=end is None)
    starts = {leaf.at - part.at: made for leaf, made in reversed(own)}
    since = apart_from(part.levels, starts, begins, part.beats)
    for level in inner:
        if since is None or level.at < since:
            _attach_level(level, starts[level.at])
    if since is None:
        return []
    inner = [level for level in inner if level.at >= since]
    times = sorted({since, *(level.at for level in inner)})
    track: Components = []
    for at, until in zip(times, [*times[1:], part.beats], strict=True):
        skip = silent(until - at)
        for level in inner:
            if level.at == at:
                _attach_level(level, skip)
        track.append(skip)
    return track


def _last_sounding(own: Placed) -> abjad.Leaf:
    """When the sound of a part ends; a silence after it has no level."""
    return next((made for leaf, made in reversed(own) if leaf.kind not in ("rest", "bar-rest")), own[-1][1])


def _place_after(last: abjad.Leaf) -> abjad.Leaf:
    """A place without length between a leaf, with the grace notes at its end, and what comes next."""
    place = abjad.Skip.from_duration(duration(GRACE_VALUE))
    graces = abjad.get.after_grace_container(last)  # type: ignore[no-untyped-call]  # Abjad leaves it unannotated
    if graces is None:
        abjad.attach(abjad.AfterGraceContainer([place], fraction=GRACE), last)
    else:
        graces.append(place)  # a leaf has only one such container: another would take the place of its notes
    return place


def _attach_level(level: DynamicLevel, made: abjad.Leaf, *, at_end: bool = False) -> None:
    put_before(made, marks.before_level(level, at_end=at_end))
    if level.level in marks.LILYPONDS_LEVELS:
        abjad.attach(abjad.Dynamic(level.level), made)
    elif level.closes:
        abjad.attach(abjad.StopHairpin(), made)
    put_after(made, marks.other_level(level))
    if level.hairpin:
        abjad.attach(abjad.StartHairpin(level.hairpin), made)


# --- voices and repeats ----------------------------------------------------------------------------------------


def _two_voices(part: Part, made: Components, track: Components, music: Music, meter: Meter) -> abjad.Container:
    """The sung line above or below the played one, in a voice of its own."""
    if part.sung is None:
        raise ValueError("no sung line")
    builder = LeafBuilder({event.key: event for event in part.sung.events}, music, meter)
    sung = builder.components(part.sung.leaves)
    beam(builder.placed)
    if part.sung.stop is not None:
        add_stop(part.sung.stop, sung, builder.placed, music)
    above = _height(part.sung.sounding) >= _height(part.played.sounding)
    # The played line stays in the surrounding score's voice, whose stems are then reset.
    own, other = (r"\gsLower", r"\voiceOne") if above else (r"\gsUpper", r"\voiceTwo")
    played = abjad.Container(made)
    abjad.attach(abjad.LilyPondLiteral(own, site="opening"), played)
    abjad.attach(abjad.LilyPondLiteral(r"\gsAlone", site="closing"), played)
    voice = abjad.Voice(sung)
    abjad.attach(abjad.LilyPondLiteral(other, site="opening"), voice)
    tracks = [abjad.Container(track)] if track else []
    return abjad.Container([played, *tracks, voice], simultaneous=True)


def _height(found: tuple[Event, ...]) -> Fraction:
    steps = [e.head.steps for e in found if e.head is not None and e.head.steps is not None]
    return Fraction(sum(steps), len(steps)) if steps else Fraction(0)


def _repeated(made: list[tuple[Part, Components]], music: Music) -> Components:
    """All components in order, with repeated stretches in containers of their own."""
    out: Components = []
    inside: dict[RepeatedStretch, abjad.Container] = {}
    for n, (part, components) in enumerate(made):
        repeat = next((r for r in music.repeats if r.start <= part.at < r.end), None)
        if repeat is None:
            out += components
        else:
            if repeat not in inside:
                inside[repeat] = _volta(repeat)
                out.append(inside[repeat])
            inside[repeat].extend(components)
        # An invisible bar line would let two close levels run into each other, and hide a repeat sign.
        goes_on = any(there for _, there in made[n + 1 :])
        if music.meter is None and goes_on and not part.crowded:
            _allow_break(components, keep=music.plays_on(part.at + part.beats), rest=_begins_silent(made[n + 1 :]))
    return out


def _volta(repeat: RepeatedStretch) -> abjad.Container:
    """A stretch between repeat signs; if it is played more than twice, the sign at its end says so."""
    container = abjad.Container()
    abjad.attach(abjad.Repeat(repeat_count=repeat.times), container)
    if repeat.times > 2:
        abjad.attach(abjad.LilyPondLiteral(f"\\gsTimes {quoted(repeat.text)}", site="closing"), container)
    return container


def _begins_silent(made: list[tuple[Part, Components]]) -> bool:
    """Whether what comes next begins with a rest."""
    part = next((part for part, components in made if components), None)
    return part is not None and not part.played.events[0].sounds


def _allow_break(components: Components, *, keep: bool, rest: bool = False) -> None:
    """Let a line break between two events in music without bar lines. `keep`: but not onto another page; `rest`:
    nor, if avoidable, before a rest, which would be alone on the next line."""
    if components:
        site = "absolute_after" if isinstance(components[-1], abjad.Leaf) else "after"
        commands = [r'\bar ""', *([PLAYS_ON] if keep else []), *([r"\gsRestNext"] if rest else [])]
        abjad.attach(abjad.LilyPondLiteral(commands, site=site), components[-1])
