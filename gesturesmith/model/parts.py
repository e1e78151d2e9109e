"""A file for several instruments, as one tree for each part: what it plays, with its own settings.

Everything after this reads a part as if it were a file for one instrument.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from gesturesmith.diagnostics import ReadError
from gesturesmith.lang import nodes
from gesturesmith.lang.keys import PASSAGE, SETTINGS
from gesturesmith.lang.messages import shown
from gesturesmith.lang.words import PLAYERS
from gesturesmith.model import messages
from gesturesmith.model.context import MAX_BEATS, MAX_GESTURES
from gesturesmith.model.piece import PassageLine, Piece
from gesturesmith.source import Span
from gesturesmith.values import frozen

MAX_PARTS = 60
# How often lines are read together until changes of tempo and gestures in seconds have their times: each time one
# more of those that depend on each other has it.
MAX_ROUNDS = 50


@frozen(kw_only=True)
class PartTree:
    """The content of a part: its lines as the `play` of the passages, the blocks they play, its settings.

    short   its short name, "" where none is given
    """

    name: str
    title: str
    short: str
    tree: nodes.File


@frozen(kw_only=True)
class Division:
    """The parts of a file in order, without those that lack an instrument; `shared`: the settings of the file, used
    for the score."""

    parts: tuple[PartTree, ...]
    shared: tuple[nodes.KeyEntry, ...]
    errors: tuple[ReadError, ...]


def has_parts(tree: nodes.File) -> bool:
    return any(block.kind == "part" for block in tree.blocks)


def lines_of(block: nodes.Block) -> tuple[nodes.KeyEntry, ...]:
    """The lines of a passage for parts."""
    return tuple(e for e in block.entries if e.key.text not in PASSAGE) if block.kind == "passage" else ()


def line_of(block: nodes.Block, part: str, changes: nodes.KeyEntry | None = None) -> nodes.Block | None:
    """A passage as one part plays it, with its line as `play`; None if it has none. `changes`: those for all parts,
    if they are known."""
    entry = next((e for e in lines_of(block) if _folded(e.key) == part), None)
    if entry is None:
        return None
    own = tuple(e for e in block.entries if e.key.text in PASSAGE and e.key.text != "play")
    line = replace(entry, key=nodes.Word("play", entry.key.span))
    return replace(block, entries=(*own, line, changes or _for_all(nodes.Imposed((), block.span))))


def _for_all(changes: nodes.Imposed) -> nodes.KeyEntry:
    return nodes.KeyEntry(nodes.Word(nodes.IMPOSED, changes.span), changes, changes.span)


def divided(tree: nodes.File) -> Division:
    """One tree for each part, and every mistake in the division of the file between them."""
    errors: list[ReadError] = []
    blocks = tuple(b for b in tree.blocks if b.kind == "part")
    if len(blocks) > MAX_PARTS:
        errors.append(messages.error("too-many-gestures", blocks[MAX_PARTS].span, limit=MAX_PARTS, what="parts"))
        blocks = blocks[:MAX_PARTS]
    errors += _settings(tree)
    errors += _lines(tree, blocks)
    parts: list[PartTree] = []
    played: set[str] = set()
    size = 0
    for block in blocks:
        part = _part(tree, block)
        played |= {_folded(b.name) for b in part.tree.blocks}
        size += len(part.tree.blocks)
        if size > MAX_GESTURES:
            errors.append(
                messages.error("too-many-gestures", block.span, limit=MAX_GESTURES, what="gestures for all parts")
            )
            break
        if part.tree.get("instrument") is None:
            name = block.name.text
            errors.append(messages.error("part-without-instrument", block.name.span, block=name, name=shown(name)))
        else:
            parts.append(part)
    if parts:
        parts[0] = _with_loose_exercises(parts[0], tree, played)
    if _read_whole(tree):
        errors += _unplayed(tree, blocks, played)
    return Division(parts=tuple(parts), shared=tree.settings, errors=tuple(errors))


def _with_loose_exercises(part: PartTree, tree: nodes.File, played: set[str]) -> PartTree:
    """A part with the exercises that vary no gesture at all, so that it is told of them."""
    gestures = {_folded(b.name) for b in tree.blocks if b.kind == "gesture"}
    loose = []
    for block in tree.blocks:
        entry = block.get("from")
        varies = _folded(entry.value) if entry is not None and isinstance(entry.value, nodes.Word) else ""
        if block.kind == "exercises" and _folded(block.name) not in played and varies not in gestures:
            loose.append(block)
    return replace(part, tree=replace(part.tree, blocks=(*part.tree.blocks, *loose)))


def _folded(word: nodes.Word) -> str:
    return word.text.casefold()


def _read_whole(tree: nodes.File) -> bool:
    """Whether every passage could be read: otherwise it is unknown what is missing."""
    return not any(block.broken for block in tree.blocks if block.kind not in ("gesture", "part", "exercises"))


def _settings(tree: nodes.File) -> Iterator[ReadError]:
    entry = tree.get("part")
    if entry is not None:
        yield messages.error("name-of-all-parts", entry.key.span)


def _lines(tree: nodes.File, blocks: tuple[nodes.Block, ...]) -> Iterator[ReadError]:
    """Report passages with unused lines, and parts without any."""
    first = blocks[0].name.text
    lined: set[str] = set()
    for block in tree.blocks:
        lines = lines_of(block)
        lined |= {_folded(entry.key) for entry in lines}
        play = block.get("play")
        if lines and play is not None:
            yield messages.error("play-beside-lines", play.key.span, block=block.name.text)
        if block.kind == "passage" and not lines and play is None and not block.broken:
            name = block.name.text
            yield messages.error("no-lines", block.name.span, block=name, name=shown(name), part=first)
    for block in blocks if _read_whole(tree) else ():
        if _folded(block.name) not in lined:
            name = block.name.text
            yield messages.error("part-without-line", block.name.span, block=name, name=name)


def _part(tree: nodes.File, block: nodes.Block) -> PartTree:
    name = _folded(block.name)
    title = block.title.text if block.title is not None else block.name.text
    short = block.get("short")
    own = tuple(e for e in block.entries if e.key.text in SETTINGS or e.key.text in ("players", "key"))
    instead = {e.key.text for e in own}
    of_file = (e for e in tree.settings if e.key.text not in instead and e.key.text != "part")
    at = block.title.span if block.title is not None else block.name.span
    named = nodes.KeyEntry(nodes.Word("part", at), nodes.Text(title, at), at)
    in_score = nodes.KeyEntry(nodes.Word(nodes.IN_SCORE, at), nodes.Text("", at), at)
    mine: list[nodes.Block] = []
    lined: set[str] = set()
    by_name = {_folded(b.name): b for b in reversed(tree.blocks)}
    for one in tree.blocks:
        line = line_of(one, name)
        if line is not None:
            lined.add(_folded(one.name))
            by_name[_folded(one.name)] = line
    reached = _reached(lined, by_name)
    for one in tree.blocks:
        here = by_name[_folded(one.name)]
        if one.kind == "part" or (lines_of(one) and _folded(one.name) not in lined):
            continue
        varies = one.get("from")
        if one.kind == "exercises" and varies is not None and isinstance(varies.value, nodes.Word):
            wanted = _folded(varies.value) in reached
        else:
            wanted = _folded(one.name) in reached
        if wanted:
            mine.append(here if here.span == one.span else one)
    return PartTree(
        name=block.name.text,
        title=title,
        short=short.value.text if short is not None and isinstance(short.value, nodes.Text) else "",
        tree=nodes.File((*of_file, *own, named, in_score), tuple(mine)),
    )


# --- two players who read one line ---------------------------------------------------------------------------


def two_players(tree: nodes.File) -> bool:
    """Whether two players read the lines of a part."""
    entry = tree.get("players")
    return entry is not None and isinstance(entry.value, nodes.Amount) and entry.value.value > 1


def of_player(tree: nodes.File, number: int) -> nodes.File:
    """What the first (0) or second (1) of two players plays of their common lines: rests for what only the other
    plays."""
    settings = tuple(e for e in tree.settings if e.key.text != "players")
    return nodes.File(settings, tuple(_of_player(block, number) for block in tree.blocks))


def _of_player(block: nodes.Block, number: int) -> nodes.Block:
    entries = tuple(
        replace(e, value=nodes.Play(tuple(_mine(e.value.items, number)), e.value.span))
        if isinstance(e.value, nodes.Play)
        else e
        for e in block.entries
    )
    return replace(block, entries=entries)


def _mine(items: tuple[nodes.PlayItem, ...], number: int) -> Iterator[nodes.PlayItem]:
    playing: str = PLAYERS[0]
    for item in items:
        playing = item.who.text if item.who is not None else playing
        own = item.below if item.below is not None and number else item
        silent = item.below is None and playing not in (PLAYERS[0], PLAYERS[1 + number])
        yield replace(own, who=None, below=None, silent=silent and item.rest is None)


def divided_passages(tree: nodes.File) -> frozenset[str]:
    """The names of passages in which the two players of a part are divided."""
    blocks = {_folded(b.name): b for b in tree.blocks}
    apart = {name for name, block in blocks.items() if any(item.below is not None for item in _items(block))}
    return frozenset(b.name.text for b in tree.blocks if _reached({_folded(b.name)}, blocks) & apart)


def _items(block: nodes.Block) -> Iterator[nodes.PlayItem]:
    for entry in block.entries:
        if isinstance(entry.value, nodes.Play):
            yield from entry.value.items


def _reached(start: set[str], blocks: Mapping[str, nodes.Block]) -> set[str]:
    """The names of everything these passages play, including themselves."""
    found = set(start)
    waiting = sorted(start)
    while waiting:
        block = blocks.get(waiting.pop())
        for name in _names(block) if block is not None else ():
            if name not in found:
                found.add(name)
                waiting.append(name)
    return found


def _names(block: nodes.Block) -> Iterator[str]:
    every = (one for item in _items(block) for one in (item, item.below) if one is not None)
    yield from (_folded(item.name) for item in every if item.name is not None)


def _unplayed(tree: nodes.File, parts: tuple[nodes.Block, ...], played: set[str]) -> Iterator[ReadError]:
    """Report what no part plays, since its instrument is unknown."""
    for block in tree.blocks:
        if block.kind in ("part", "exercises") or lines_of(block) or _folded(block.name) in played:
            continue
        if block.kind == "passage" and block.get("play") is None:
            continue
        name, part = block.name.text, parts[0].name.text
        yield messages.error("unplayed", block.name.span, block=name, kind=block.kind, name=name, part=part)


# --- what changes for all ------------------------------------------------------------------------------------


type Imposed = Mapping[str, nodes.Imposed]  # by the name of a passage with lines


def imposed(
    tree: nodes.File, parts: tuple[PartTree, ...], pieces: tuple[Piece | None, ...]
) -> tuple[Imposed, tuple[ReadError, ...]]:
    """What any line of a passage says of tempo, meter and the like, which holds for all, and every contradiction
    between lines. Where gestures last seconds, times depend on tempos that another line may say: they are right
    once what is found is what the parts were read `with_changes`."""
    errors: list[ReadError] = []
    every: dict[str, nodes.Imposed] = {}
    for block in tree.blocks:
        if not lines_of(block):
            continue
        said: dict[tuple[type, Fraction], tuple[str, nodes.PlayItem]] = {}
        for part, piece in zip(parts, pieces, strict=True):
            line = piece.lines.get(block.name.text) if piece is not None else None
            for at, entry in line.entries if line is not None else ():
                who, first = said.setdefault((type(entry.change), at), (part.name, entry))
                one, other = (str(node.change) for node in (entry, first))
                if one != other:
                    errors.append(
                        messages.error(
                            "parts-contradict",
                            entry.span,
                            block=block.name.text,
                            what=f"`{one}`",
                            other=f"`{who}`",
                            instead=f"`{other}`",
                        )
                    )
        order = sorted(((at, entry) for (_, at), (_, entry) in said.items()), key=lambda row: row[0])
        every[block.name.text] = nodes.Imposed(tuple(order), block.span)
    return every, tuple(errors)


def with_changes(parts: tuple[PartTree, ...], every: Imposed) -> tuple[PartTree, ...]:
    """The parts, each with what changes for all of them."""
    return tuple(replace(part, tree=_with_changes(part.tree, every)) for part in parts)


def unsettled(tree: nodes.File, every: Imposed, before: Imposed) -> Iterator[ReadError]:
    """Report passages in which the times of changes could not be found."""
    for block in tree.blocks:
        name = block.name.text
        if every.get(name) != before.get(name):
            yield messages.error("too-many-changes", block.name.span, block=name, limit=MAX_ROUNDS)


def _with_changes(tree: nodes.File, every: Imposed) -> nodes.File:
    def of(block: nodes.Block) -> nodes.Block:
        value = every.get(block.name.text)
        if value is None:
            return block
        own = (entry for entry in block.entries if entry.key.text != nodes.IMPOSED)
        return replace(block, entries=(*own, _for_all(value)))

    return replace(tree, blocks=tuple(map(of, tree.blocks)))


# --- the lines under each other ------------------------------------------------------------------------------


def padded(
    tree: nodes.File, parts: tuple[PartTree, ...], pieces: tuple[Piece | None, ...]
) -> tuple[PartTree, ...] | None:
    """The parts with rests while others play: for a whole passage if a part has no line, in free time after a
    shorter line. None if nothing needs adding.

    Passages are handled after those they play: one that plays a passage with additions waits for the next round.
    """
    lacking = {b.name.text: found for b in tree.blocks if lines_of(b) and (found := _lacking(b, parts, pieces))}
    names = {name.casefold() for name in lacking}
    now = {
        name: found
        for name, found in lacking.items()
        if not any((_played(part.tree, name) - {name.casefold()}) & names for part in parts)
    }
    if not now:
        return None
    return tuple(
        replace(part, tree=_with_rests(part, tree, {name: found.get(part.name) for name, found in now.items()}))
        for part in parts
    )


def _lacking(
    block: nodes.Block, parts: tuple[PartTree, ...], pieces: tuple[Piece | None, ...]
) -> dict[str, Fraction]:
    """For each part, the missing beats of a passage; none for unfilled bars, which are a mistake."""
    name = block.name.text
    made = {part.name: _line(piece, name) for part, piece in zip(parts, pieces, strict=True)}
    longest = max((one for one in made.values() if one is not None), key=lambda one: one.beats, default=None)
    if longest is None:
        return {}
    found = {}
    for part in parts:
        own = made[part.name]
        there = any(b.name.text == name for b in part.tree.blocks)
        if own is None and not there:
            found[part.name] = longest.beats
        elif own is not None and own.beats < longest.beats and longest.meter is None:
            found[part.name] = longest.beats - own.beats
    return found


def _line(piece: Piece | None, name: str) -> PassageLine | None:
    """A passage as far as its length is known; None if it is not."""
    line = piece.lines.get(name) if piece is not None else None
    return line if line is not None and line.beats else None


def _played(tree: nodes.File, name: str) -> set[str]:
    return _reached({name.casefold()}, {_folded(b.name): b for b in tree.blocks})


def _with_rests(part: PartTree, whole: nodes.File, beats: dict[str, Fraction | None]) -> nodes.File:
    """The tree of a part with rests at the ends of passages, or for whole passages."""
    known = {b.name.text: b for b in part.tree.blocks}
    for block in whole.blocks:
        rest = beats.get(block.name.text)
        if rest is None:
            continue
        own = known.get(block.name.text)
        entries = tuple(e for e in block.entries if e.key.text in PASSAGE and e.key.text != "play")
        played = own.get("play") if own is not None else None
        items = played.value.items if played is not None and isinstance(played.value, nodes.Play) else ()
        at = played.span if played is not None else block.span
        play = nodes.Play((*items, *_rests(rest, at)), at)
        key = played.key if played is not None else nodes.Word("play", block.span)
        changes = own.get(nodes.IMPOSED) if own is not None else None
        held = (changes,) if changes is not None else ()
        known[block.name.text] = replace(block, entries=(*entries, nodes.KeyEntry(key, play, at), *held))
    order = [b.name.text for b in whole.blocks if b.name.text in known]
    return replace(part.tree, blocks=tuple(known[name] for name in order))


def _rests(beats: Fraction, at: Span) -> Iterator[nodes.PlayItem]:
    """A rest, in pieces of permitted length."""
    while beats > 0:
        piece = min(beats, Fraction(MAX_BEATS))
        yield nodes.PlayItem(rest=nodes.Amount(piece, "beats", at), span=at)
        beats -= piece


def uneven(tree: nodes.File, parts: tuple[PartTree, ...], pieces: tuple[Piece | None, ...]) -> Iterator[ReadError]:
    """Report lines of one passage with bars of different length."""
    for block in tree.blocks:
        made = {p.name: _line(piece, block.name.text) for p, piece in zip(parts, pieces, strict=True)}
        there = {part: one for part, one in made.items() if one is not None}
        if not lines_of(block) or not there:
            continue
        who, longest = max(there.items(), key=lambda one: one[1].beats)
        for entry in lines_of(block):
            own = next((p for part, p in there.items() if part.casefold() == _folded(entry.key)), None)
            if own is not None and own.beats < longest.beats and longest.meter is not None:
                yield messages.error(
                    "uneven-lines",
                    entry.key.span,
                    block=block.name.text,
                    name=shown(entry.key.text),
                    length=messages.length(own.beats, False),
                    other=shown(who),
                    longest=messages.length(longest.beats, False),
                    rest=messages.amount(longest.beats - own.beats),
                )
