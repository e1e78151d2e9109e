"""A plan as an Abjad score, and as LilyPond text. Abjad spells nothing anew and splits nothing: it is given names
and values and puts beams, ties, tuplets, slurs and dynamics at them."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import groupby

from gesturesmith.engrave._abjad import abjad
from gesturesmith.engrave.dynamics import Dynamic
from gesturesmith.engrave.events import Event
from gesturesmith.engrave.plan import Part, Plan
from gesturesmith.engrave.rhythm import Leaf, Slot, Triplet, leaves
from gesturesmith.engrave.setter import (
    GRACE,
    GRACE_VALUE,
    PLAYS_ON,
    Components,
    Placed,
    Setter,
    add_stop,
    duration,
    feathered,
    put_after,
    put_before,
    silent,
)
from gesturesmith.lytext import LyText, code, quoted
from gesturesmith.model.piece import Repeat

_UNBROKEN = Fraction(8)  # beats of a gesture that stay on one line


def text(plan: Plan, repeats: tuple[Repeat, ...] = (), times: str = "") -> LyText:
    """The LilyPond text of one voice. It names none: cues and combined parts put the notes into their own.

    times   how often a stretch is played: `{count} times`
    """
    made = [(part, _set_part(part, plan)) for part in plan.parts] if plan.meter.bar is None else _set_barred(plan)
    first = next((component for _, components in made for component in components), None)
    if isinstance(first, abjad.Container) and first.simultaneous():
        # Where nothing has been played there is no voice yet, and each of what is simultaneous would begin its own:
        # a hairpin would never reach the level that ends it.
        abjad.attach(abjad.LilyPondLiteral("<>", site="before"), first)
    whole = abjad.Container(_repeated(made, repeats, times, plan))
    return code(str(abjad.lilypond(whole)))  # type: ignore[no-untyped-call]  # Abjad leaves it unannotated


def _set_part(part: Part, plan: Plan) -> Components:
    return _set(part, list(leaves(part.slots, plan.meter)), plan)


def _set_barred(plan: Plan) -> list[tuple[Part, Components]]:
    """All parts on one clock; a triplet that reaches into the next part belongs to the one it begins in."""
    slots = tuple(slot for part in plan.parts for slot in part.slots)
    runs: list[list[Leaf | Triplet]] = [[] for _ in plan.parts]
    owner = {slot.key: n for n, part in enumerate(plan.parts) for slot in part.slots}
    for whole in leaves(slots, plan.meter):
        for item in _parted(whole, owner, plan):
            runs[owner[_first(item).key]].append(item)
    setter = Setter({k: e for part in plan.parts for k, e in _keyed(part.slots, part.line.events)}, plan)
    ahead: Placed = []
    made = []
    for n, (part, run) in enumerate(zip(plan.parts, runs, strict=True)):
        components = setter.components(run)
        placed, setter.placed = setter.placed, []
        ahead += placed
        own = [(leaf, there) for leaf, there in ahead if owner[leaf.key] == n]
        ahead = [(leaf, there) for leaf, there in ahead if owner[leaf.key] > n]
        made.append((part, _finish(part, components, placed, own, setter, plan)))
    setter.beam([], apart=True)
    return made


def _parted(item: Leaf | Triplet, owner: dict[int, int], plan: Plan) -> list[Leaf | Triplet]:
    """A triplet that parts share, as one for each where what begins or ends in it needs music of its own: a second
    voice, a feathered beam, a level between two leaves."""
    if not isinstance(item, Triplet):
        return [item]
    shared = [(n, list(group)) for n, group in groupby(item.leaves, lambda leaf: owner[leaf.key])]
    if not any(plan.parts[n].sung is not None or plan.parts[n].feathers for n, _ in shared) and not any(
        _level_between(plan.parts[n], group) for n, group in shared[1:]
    ):
        return [item]
    return [Triplet(tuple(group)) for _, group in shared]


def _level_between(part: Part, found: list[Leaf]) -> bool:
    until = found[-1].at + found[-1].value * Fraction(2, 3)
    starts = {leaf.at for leaf in found}
    return any(part.at + d.at < until and part.at + d.at not in starts for d in part.dynamics if d.at < part.beats)


def _set(part: Part, run: list[Leaf | Triplet], plan: Plan) -> Components:
    setter = Setter(dict(_keyed(part.slots, part.line.events)), plan)
    components = setter.components(run)
    if not part.feathers:
        _let_break(run, components)
    made = _finish(part, components, setter.placed, setter.placed, setter, plan)
    setter.beam([], apart=True)
    return made


def _let_break(run: list[Leaf | Triplet], made: Components) -> None:
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


def _beats(item: Leaf | Triplet) -> Fraction:
    if isinstance(item, Triplet):
        return sum((leaf.value for leaf in item.leaves), Fraction(0)) * Fraction(2, 3)
    return item.value


def _keyed(slots: tuple[Slot, ...], found: list[Event]) -> Iterable[tuple[int, Event]]:
    return zip((slot.key for slot in slots), found, strict=True)


def _first(item: Leaf | Triplet) -> Leaf:
    return item.leaves[0] if isinstance(item, Triplet) else item


def _finish(part: Part, made: Components, placed: Placed, own: Placed, setter: Setter, plan: Plan) -> Components:
    """The components of a part: its leaves, the head where its line stops, dynamics, a second voice.

    placed  leaves of the components; a triplet among them may reach into the next part
    own     leaves of the part, where the one before reaches into it also what stands there
    """
    end = None
    if part.line.stop is not None:
        end = add_stop(part.line.stop, made, own, plan)
    if part.feathers:
        made = [feathered(made, placed, part.feathers)]
    begins = placed[0][0].at if placed else None
    track = _attach_dynamics(part, own, plan, end, begins)
    setter.beam(placed, apart=bool(part.feathers or track or part.sung))
    if part.sung is not None:
        return [_two_voices(part, made, track, plan)]
    if track:
        return [abjad.Container([abjad.Container(made), abjad.Container(track)], simultaneous=True)]
    return made


# --- dynamics --------------------------------------------------------------------------------------------------


def _attach_dynamics(
    part: Part, own: Placed, plan: Plan, end: abjad.Leaf | None, begins: Fraction | None
) -> Components:
    """Dynamics at the leaves that begin with them; where one falls between leaves, all go on a track of skips.

    The last one, at the very end, stands under the head where the line stops, or just before what comes next.
    The track begins with the part's components, at `begins`; what comes before stands at leaves of a triplet that
    the part before began.
    """
    offset = part.at if plan.meter.bar is not None else Fraction(0)
    ending = [d for d in part.dynamics if d.at >= part.beats]
    inner = [d for d in part.dynamics if d.at < part.beats]
    if ending:
        last = end if end is not None else _place_after(_last_sounding(own))
        for dynamic in ending:
            if end is None and (dynamic.level or dynamic.other):
                dynamic.before.insert(0, r"\gsLevelAtEnd")
            _attach_dynamic(dynamic, last)
    starts = {leaf.at - offset: made for leaf, made in reversed(own)}
    from_here = part.beats if begins is None else begins - offset
    if all(d.at in starts for d in inner):
        from_here = part.beats
    for dynamic in inner:
        if dynamic.at < from_here:
            _attach_dynamic(dynamic, starts[dynamic.at])
    inner = [d for d in inner if d.at >= from_here]
    if not inner:
        return []
    times = sorted({from_here, *(d.at for d in inner)})
    track: Components = []
    for at, until in zip(times, [*times[1:], part.beats], strict=True):
        skip = silent(until - at)
        for dynamic in inner:
            if dynamic.at == at:
                _attach_dynamic(dynamic, skip)
        track.append(skip)
    return track


def _last_sounding(own: Placed) -> abjad.Leaf:
    """Where the sound of a part ends; a silence after it has no level."""
    return next((made for leaf, made in reversed(own) if leaf.kind not in ("rest", "bar-rest")), own[-1][1])


def _place_after(last: abjad.Leaf) -> abjad.Leaf:
    """A place of no length between a leaf and what comes next."""
    place = abjad.Skip.from_duration(duration(GRACE_VALUE))
    abjad.attach(abjad.AfterGraceContainer([place], fraction=GRACE), last)
    return place


def _attach_dynamic(dynamic: Dynamic, made: abjad.Leaf) -> None:
    put_before(made, dynamic.before)
    if dynamic.level:
        abjad.attach(abjad.Dynamic(dynamic.level), made)
    elif dynamic.closes:
        abjad.attach(abjad.StopHairpin(), made)
    if dynamic.other:
        put_after(made, [dynamic.other])
    if dynamic.hairpin:
        abjad.attach(abjad.StartHairpin(dynamic.hairpin), made)


# --- voices and repeats ----------------------------------------------------------------------------------------


def _two_voices(part: Part, made: Components, track: Components, plan: Plan) -> abjad.Container:
    """The sung line above or below the played one, in a voice of its own."""
    if part.sung is None:
        raise ValueError("no sung line")
    setter = Setter(dict(_keyed(part.sung_slots, part.sung.events)), plan)
    sung = setter.components(list(leaves(part.sung_slots, plan.meter)))
    setter.beam(setter.placed, apart=True)
    if part.sung.stop is not None:
        add_stop(part.sung.stop, sung, setter.placed, plan)
    above = _height(part.sung.sounding) >= _height(part.line.sounding)
    # The played line stays in the voice of the score it is put into, which gets its stems back as they were.
    own, other = (r"\gsLower", r"\voiceOne") if above else (r"\gsUpper", r"\voiceTwo")
    played = abjad.Container(made)
    abjad.attach(abjad.LilyPondLiteral(own, site="opening"), played)
    abjad.attach(abjad.LilyPondLiteral(r"\gsAlone", site="closing"), played)
    voice = abjad.Voice(sung)
    abjad.attach(abjad.LilyPondLiteral(other, site="opening"), voice)
    tracks = [abjad.Container(track)] if track else []
    return abjad.Container([played, *tracks, voice], simultaneous=True)


def _height(found: list[Event]) -> Fraction:
    steps = [e.head.steps for e in found if e.head is not None and e.head.steps is not None]
    return Fraction(sum(steps), len(steps)) if steps else Fraction(0)


def _repeated(
    made: list[tuple[Part, Components]], repeats: tuple[Repeat, ...], times: str, plan: Plan
) -> Components:
    """All components in order, stretches that are repeated in containers of their own."""
    out: Components = []
    inside: dict[Repeat, abjad.Container] = {}
    for n, (part, components) in enumerate(made):
        repeat = next((r for r in repeats if r.start <= part.at < r.end), None)
        if repeat is None:
            out += components
        else:
            if repeat not in inside:
                inside[repeat] = _volta(repeat, times)
                out.append(inside[repeat])
            inside[repeat].extend(components)
        # An invisible bar line would let two levels that stand close run into each other.
        if plan.meter.bar is None and part is not made[-1][0] and not part.crowded:
            _allow_break(components, keep=plan.plays_on(part.at + part.beats), rest=_begins_silent(made[n + 1 :]))
    return out


def _volta(repeat: Repeat, times: str) -> abjad.Container:
    """A stretch between repeat signs; where it is played more than twice, that stands over the sign at its end."""
    container = abjad.Container()
    abjad.attach(abjad.Repeat(repeat_count=repeat.times), container)
    if repeat.times > 2:
        said = f"\\gsTimes {quoted(times.replace('{count}', str(repeat.times)))}"
        abjad.attach(abjad.LilyPondLiteral(said, site="closing"), container)
    return container


def _begins_silent(made: list[tuple[Part, Components]]) -> bool:
    """Whether what comes next begins with a rest."""
    part = next((part for part, components in made if components), None)
    return (
        part is not None
        and not next(e for n, e in enumerate(part.line.events) if not part.slots[n].gathered).sounds
    )


def _allow_break(components: Components, *, keep: bool, rest: bool = False) -> None:
    """Without bar lines a line may break between two events; `keep`: but not to go on on another page; `rest`: nor
    before a rest, where it can be helped, which would stand alone on the next line."""
    if components:
        site = "absolute_after" if isinstance(components[-1], abjad.Leaf) else "after"
        commands = [r'\bar ""', *([PLAYS_ON] if keep else []), *([r"\gsRestNext"] if rest else [])]
        abjad.attach(abjad.LilyPondLiteral(commands, site=site), components[-1])
