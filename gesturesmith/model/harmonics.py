"""From pitches named by a just interval or the partial of a tube to notes."""

from __future__ import annotations

import math

from gesturesmith.acoustics.series import partial_cents
from gesturesmith.instruments.base import Tube
from gesturesmith.lang import nodes
from gesturesmith.lang.messages import listed
from gesturesmith.model.context import Context, spelled
from gesturesmith.units import Spelling, chromatic, spell

_INSTEAD = ("C", 4)  # stands in for an impossible pitch, so that the rest can be read


def as_note(ctx: Context, node: nodes.JustNote | nodes.Harmonic) -> nodes.Note:
    """The note nearest to the pitch, with the difference to the cent; errors go to the context."""
    name = _just(node) if isinstance(node, nodes.JustNote) else _partial(ctx, node)
    if name is not None and not 0 <= name.octave <= 9:
        ctx.error("no-such-harmonic", node.span, why="this pitch lies outside C0 to B9: no note can show it")
        name = None
    if name is None:
        return nodes.Note(_INSTEAD[0], spell(0).alter, _INSTEAD[1], 0, False, node.span)
    return nodes.Note(name.letter, name.alter, name.octave, name.cents, False, node.span)


def tube_name(finger: nodes.Finger) -> str:
    """A fingering as tubes are named: side, valves in their order; `short` and `long` stay before the position."""
    valves = "-".join(sorted(set(finger.valves.split("-"))))
    return " ".join(w for w in (finger.shade, finger.side, valves) if w)


def _just(node: nodes.JustNote) -> Spelling:
    """Named by the interval closest in size: 7/4 is a minor seventh less 31 cents."""
    cents = round(1200 * math.log2(node.ratio)) + node.of.cents
    semitones = round(cents / 100)
    base = spelled(nodes.Note(node.of.letter, node.of.alter, node.of.octave, 0, False, node.of.span))
    near = base.transposed(chromatic(semitones))
    return Spelling(near.letter, near.alter, near.octave, near.cents + cents - 100 * semitones)


def _partial(ctx: Context, node: nodes.Harmonic) -> Spelling | None:
    tube = _tube(ctx, node)
    if tube is None:
        return None
    lowest, highest = 1, tube.widest_partials[1]
    if not lowest <= node.partial <= highest:
        why = f"partial {node.partial} of {tube.name} is beyond the lip: {highest} is the highest known of it"
        ctx.error("no-such-harmonic", node.span, why=why)
        return None
    cents = tube.fundamental_cents + partial_cents(node.partial)
    return spell(cents - ctx.instrument.sounding.cents if ctx.written else cents)


def _tube(ctx: Context, node: nodes.Harmonic) -> Tube | None:
    if not ctx.known:
        return None
    name = tube_name(node.tube)
    tubes = ctx.instrument.tubes_named(name)
    if len(tubes) == 1:
        return tubes[0]
    ways = tuple(f"{tube.name}:{node.partial}" for tube in tubes)
    why = f"of which side? Write {listed(ways)}" if tubes else f"the {ctx.instrument.name} has no tube {name}"
    ctx.error("no-such-harmonic", node.span, why=why)
    return None
