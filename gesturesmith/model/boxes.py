"""Boxes: what is repeated freely in a passage, and how long."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Literal

from gesturesmith.evidence import HOUSE, Sourced
from gesturesmith.kinds import one_of
from gesturesmith.lang import nodes
from gesturesmith.lang.words import CHOICES, PACES
from gesturesmith.model import messages
from gesturesmith.model.context import Context
from gesturesmith.model.piece import Box, InBox, PassageItem

UNTIL_CUE_S = Sourced(Fraction(30), HOUSE, "a cue without a time limit is assumed to come within this")
_FEWEST = 2  # a box lasts at least this many times its content
_LINE = Fraction(4), Fraction(8)  # beats for the line after the cells in free time: minimum and maximum
_MAX_CELLS = 8

type Events = Callable[[nodes.PlayItem], list[PassageItem] | None]


def read(ctx: Context, block: nodes.Block, tempo: Fraction, events: Events) -> Box | None:
    """The box of a block at a tempo, or None after an error. `events` reads one item of `play`."""
    name = f"`{block.name.text}`"
    cells = [cell for entry in block.entries if entry.key.text == "play" for cell in [_cell(ctx, entry, events)]]
    lasts, choose, pace = (block.get(key) for key in ("lasts", "choose", "pace"))
    if not cells:
        if not block.broken:
            what = "repeats nothing: add `play: G4 for 1, rest 1`"
            ctx.error("box-choice", block.name.span, name=name, what=what)
        return None
    if len(cells) > _MAX_CELLS:
        what = f"has {len(cells)} boxes to choose from; at most {_MAX_CELLS} are possible"
        ctx.error("box-choice", block.name.span, name=name, what=what)
    if lasts is None:
        ctx.error("box-without-end", block.name.span, name=name)
    if len(cells) > 1 and choose is None:
        what = "has several `play` lines: add `choose: one` or `choose: any order`"
        ctx.error("box-choice", block.name.span, name=name, what=what)
    if len(cells) == 1 and choose is not None:
        what = "has only one `play` to choose from: add another"
        ctx.error("box-choice", choose.span, name=name, what=what)
    if any(cell is None for cell in cells) or lasts is None or not isinstance(lasts.value, nodes.BoxLength):
        return None
    whole = tuple(cell for cell in cells if cell is not None)
    beats, in_seconds = _beats(ctx, lasts.value, tempo)
    longest = max(_length(cell) for cell in whole)
    if beats < longest * _FEWEST:
        length, cell = (_said(ctx, b, tempo, in_seconds) for b in (beats, longest))
        ctx.error("box-too-short", lasts.span, name=name, length=length, cell=cell)
    if not ctx.short_enough("this box", beats, lasts.span) or ctx.flawed:
        return None
    return Box(
        name=block.name.text,
        title=block.title.text if block.title is not None else None,
        cells=whole,
        choose=_phrase(choose, CHOICES),
        pace=_phrase(pace, PACES),
        beats=beats,
        in_seconds=in_seconds,
        cue=lasts.value.cue.text if lasts.value.cue is not None else "",
        within=lasts.value.cue is not None and lasts.value.amount is not None,
        span=lasts.span,
    )


def _phrase[W: str](entry: nodes.KeyEntry | None, words: tuple[W, ...]) -> W | Literal[""]:
    return one_of(words, entry.value.text) if entry is not None and isinstance(entry.value, nodes.Word) else ""


def _cell(ctx: Context, entry: nodes.KeyEntry, events: Events) -> tuple[PassageItem, ...] | None:
    if not isinstance(entry.value, nodes.Play):
        ctx.flawed = True
        return None
    items: list[PassageItem] = []
    at = Fraction(0)
    for node in entry.value.items:
        if node.change is not None:
            ctx.error("box-content", node.span, name=f"`{node.change}`")
            return None
        if node.who is not None or node.below is not None or node.silent:
            ctx.error("box-content", node.span, name="what two players share")
            return None
        found = events(node)
        if found is None:
            ctx.flawed = True
            return None
        for item in found:
            items.append(replace(item, at=at, span=node.span))
            at += item.beats
    if all(item.gesture is None for item in items):
        ctx.error("box-content", entry.span, name="silence alone")
        return None
    return tuple(items)


def _length(cell: tuple[PassageItem, ...]) -> Fraction:
    return sum((item.beats for item in cell), Fraction(0))


def _beats(ctx: Context, length: nodes.BoxLength, tempo: Fraction) -> tuple[Fraction, bool]:
    if length.amount is None:
        return UNTIL_CUE_S.value * tempo / 60, True
    seconds = length.amount.unit == "s"
    return length.amount.value * (tempo / 60 if seconds else ctx.beat), seconds


def _said(ctx: Context, beats: Fraction, tempo: Fraction, in_seconds: bool) -> str:
    return messages.length(beats * 60 / tempo if in_seconds else beats / ctx.beat, in_seconds)


def items(ctx: Context, box: Box, meter: tuple[int, int] | None, node: nodes.PlayItem) -> list[PassageItem] | None:
    """A box in a passage: its content, then the time for which it is repeated; None after an error.

    In bars this is the actual time; without bars it is only room for a line, with the duration printed above it
    (`Box.beats`).
    """
    if meter is not None:
        what = (
            "has several boxes to choose from"
            if len(box.cells) > 1
            else "lasts until a cue"
            if box.cue
            else "lasts seconds"
            if box.in_seconds
            else ""
        )
        if what:
            instead = "write them out" if len(box.cells) > 1 else "give `lasts` in beats"
            over, under = meter
            signature = f"{over}/{under}"
            ctx.error("box-in-bars", node.span, name=f"`{box.name}`", what=what, meter=signature, instead=instead)
            return None
    found = [item for number, cell in enumerate(box.cells) for item in _placed(box, number, cell)]
    rest = box.beats - _length(tuple(found))
    beats = rest if meter is not None else min(max(rest, _LINE[0]), _LINE[1])
    goes_on = PassageItem(
        at=Fraction(0), beats=beats, gesture=None, played="", span=node.span, box=InBox(box=box, cell=-1)
    )
    return [*found, goes_on]


def _placed(box: Box, number: int, cell: tuple[PassageItem, ...]) -> Iterator[PassageItem]:
    for n, item in enumerate(cell):
        yield replace(item, box=InBox(box=box, cell=number, first=n == 0, last=n == len(cell) - 1))
