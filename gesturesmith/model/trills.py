"""What the trills of a gesture go to: the interval at each point that is trilled."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from gesturesmith import techniques
from gesturesmith.instruments.base import Instrument
from gesturesmith.lang import nodes
from gesturesmith.model.context import Context, spelled
from gesturesmith.model.gesture import ContourPoint
from gesturesmith.techniques.base import Technique
from gesturesmith.units import Interval, Spelling, interval

_BY_VALVES, _BY_LIP, _TO_ANY = "above", "neighbour", "other"


@cache
def _usual(instrument: Instrument) -> Technique:
    """The trill meant if none is named: by the valves, or by the lip if there are none."""
    kind = _BY_VALVES if instrument.gives("valves") else _BY_LIP
    known = (t for t in map(techniques.get, techniques.names()) if t.trill == kind and t.look.trill)
    return next(known)


@cache
def _tremolo() -> Technique:
    """The technique that alternates between any two notes."""
    return next(t for t in map(techniques.get, techniques.names()) if t.trill == _TO_ANY)


def with_trill(ctx: Context, block: nodes.Block, asked: tuple[Technique, ...]) -> tuple[Technique, ...]:
    """The techniques, with a trill where the key names what it goes to and no technique is one."""
    node = ctx.value(block, "trill", nodes.TrillNode)
    tremolo = ctx.value(block, "tremolo", nodes.TrillNode)
    if node is not None and tremolo is not None:
        ctx.error("trill-and-tremolo", tremolo.span)
    if node is None and tremolo is None:
        return asked
    contour = ctx.value(block, "contour", nodes.Contour)
    turned = {word.text for p in contour.points for word in p.as_} if contour is not None else set()
    trilled = [t for t in map(techniques.get, techniques.names()) if t.trill and (t in asked or t.key in turned)]
    if tremolo is not None:
        mine = [t for t in trilled if t.trill == _TO_ANY]
        if trilled and not mine:
            ctx.error("trill-and-tremolo", tremolo.span)
        return asked if trilled else (*(t for t in asked if t.layer != "none"), _tremolo())
    stays = next((t for t in trilled if t.trill in ("same", _TO_ANY)), None)
    if stays is not None and node is not None:
        rule = "trill-on-itself" if stays.trill == "same" else "trill-and-tremolo"
        ctx.error(rule, node.span, technique=f"`{stays.key}`")
    if trilled:
        return asked
    return (*(t for t in asked if t.layer != "none"), _usual(ctx.instrument))


def at_points(ctx: Context, block: nodes.Block, points: tuple[ContourPoint, ...]) -> tuple[ContourPoint, ...]:
    """The points with the interval of their trill."""
    tremolo = ctx.value(block, "tremolo", nodes.TrillNode)
    node = tremolo or ctx.value(block, "trill", nodes.TrillNode)
    if node is None or not points:
        return points
    trilled = [p for p in points if p.pitch is not None and not p.about and any(t.trill for t in p.techniques)]
    if not trilled:
        ctx.error("trill-nowhere", node.span)
        return points
    wide = _interval(ctx, node, tremolo is not None, [p.pitch.written for p in trilled if p.pitch is not None])
    return tuple(replace(p, trill=wide) if p in trilled else p for p in points) if wide is not None else points


def _interval(ctx: Context, node: nodes.TrillNode, down: bool, notes: list[Spelling]) -> Interval | None:
    """The interval that is named, or from the one note trilled to the note named; `down`: it may be below."""
    if node.to is None:
        return interval(node.interval)
    pitch, _ = ctx.pitch(node.to)
    to, note = pitch.written, notes[0]
    name = f"`{spelled(node.to).name}`"
    if len(set(notes)) > 1:
        ctx.error("trill-of-many", node.span, to=name)
        return None
    wide = Interval(to.steps - note.steps, to.pitch_cents - note.pitch_cents)
    if wide.cents == 0 or (wide.cents < 0 and not down):
        ctx.error("trill-below", node.span, to=name, note=note.name)
        return None
    return wide
