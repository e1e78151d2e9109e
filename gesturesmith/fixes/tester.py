"""Tests edits on the gestures of one file."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cached_property

from gesturesmith.diagnostics import Edit, Finding, ReadError, Severity, Verdict
from gesturesmith.diagnostics.edits import apply_edits
from gesturesmith.fixes.divide import Divider
from gesturesmith.fixes.edits import EditWriter
from gesturesmith.judge.gesture import Judged, as_asked, judge_case, verdict_of
from gesturesmith.judge.passage import passage_findings
from gesturesmith.lang import parse
from gesturesmith.lang.nodes import IMPOSED, Block, File, Play
from gesturesmith.model.context import Context
from gesturesmith.model.gesture import Gesture
from gesturesmith.model.parts import line_of
from gesturesmith.model.piece import Piece, Settings
from gesturesmith.model.resolve import resolve
from gesturesmith.model.settings import for_more, settings
from gesturesmith.rules.base import Case
from gesturesmith.source import Source

# The work allowed for a file, in notes and rests judged again: counted, not timed, so that the same text always
# gets the same answer. About five seconds; enough for a hundred refused gestures of a few notes.
WORK = 200_000
_EACH = 60  # the fixed cost of reading and judging a gesture or passage again, in notes
_PLAYED = 4  # cost of a passage's note, which may be in a transposed gesture, in notes


def _rank(finding: Finding) -> int:
    return (finding.severity or Severity.CAUTION).rank


class EditTester:
    """Reads and judges single blocks of a file again, with edits applied, until `WORK` is spent or nobody wants it.

    `stopped`: whether anything was left untried for that, since this was last set to False.

    parts    names of the parts of a file for several instruments, of which this is the first
    others   those of the other parts
    gestures those of the file, before any `fallback`
    wanted   asked before each trial: whether anybody still waits for the answer
    """

    others: tuple[EditTester, ...] = ()

    def __init__(
        self,
        tree: File,
        settings: Settings,
        lines: Sequence[str],
        judged: dict[str, Judged],
        parts: tuple[str, ...] = (),
        gestures: Iterable[Gesture] = (),
        wanted: Callable[[], bool] = lambda: True,
    ) -> None:
        self._tree = tree
        self._parts = parts
        self._settings = settings
        self._judged = judged
        # With two blocks of one name nobody knows which is meant: the name must be fixed first.
        times = Counter(b.name.text.casefold() for b in tree.blocks)
        self._blocks = {n: b for b in tree.blocks if times[n := b.name.text.casefold()] == 1}
        own = {g.name.casefold(): g for g in gestures}
        self._kept = {id(b): own[n] for n, b in self._blocks.items() if b.kind == "gesture" and n in own}
        self.writer = EditWriter(settings, lines)
        self.divider = Divider(self.writer, tree.blocks)
        self._before: dict[tuple[str, ...], tuple[Counter[str], ...]] = {}
        self._left = WORK
        self._wanted = wanted
        self.stopped = False

    def block(self, name: str) -> Block | None:
        """The block of a gesture, or None if its name is not unique."""
        found = self._blocks.get(name.casefold())
        return found if found is not None and found.kind == "gesture" else None

    def passage(self, name: str) -> Block | None:
        """The block of a passage, or None if its name is not unique."""
        found = self._blocks.get(name.casefold())
        return found if found is not None and found.kind == "passage" else None

    def read_again(self, block: Block, edits: Iterable[Edit]) -> tuple[Judged, ...] | None:
        """The same, judged."""
        cases = self.cases_again(block, edits)
        return None if cases is None else tuple(map(judge_case, cases))

    def cases_again(self, block: Block, edits: Iterable[Edit]) -> tuple[Case, ...] | None:
        """The gesture of a block with edits applied, or the two it was divided into; None if it can no longer be
        read, or no more is tried."""
        if not self.may_go_on():
            return None
        blocks = self._parsed(block, edits)
        if blocks is None:
            return None
        piece, errors = self._resolved(blocks)
        if errors or piece is None or len(piece.gestures) != len(blocks):
            return None
        self._left -= sum(_EACH + g.size for g in piece.gestures)
        return tuple(map(as_asked, piece.gestures))

    def _resolved(
        self, blocks: tuple[Block, ...], kept: dict[int, Gesture] | None = None
    ) -> tuple[Piece | None, tuple[ReadError, ...]]:
        """`kept`: the gestures of the file's own blocks, by `id`."""
        tree = File(self._tree.settings, blocks)
        found, ctx = self._known
        known = None if found is None or ctx.errors else (found, for_more(ctx))
        return resolve(tree, instrument=self._settings.instrument, known=known, kept=kept)

    @cached_property
    def _known(self) -> tuple[Settings | None, Context]:
        """The settings, read once for all that is tried."""
        return settings(self._tree, None, self._settings.instrument)

    def may_go_on(self) -> bool:
        """Whether more may be tried for this file."""
        on = self._left > 0 and self._wanted()
        self.stopped = self.stopped or not on
        return on

    def _parsed(self, block: Block, edits: Iterable[Edit]) -> tuple[Block, ...] | None:
        lines = self.writer.lines[block.span.line - 1 : block.last_line]
        text = "\n".join(apply_edits(lines, edits, block.span.line))
        names = "".join(f"\npart {name}" for name in self._parts)
        tree, errors = parse(Source("edited", text + names))
        blocks = tuple(b for b in tree.blocks if b.kind != "part")
        if errors or not blocks:
            return None
        if not self._parts:
            return blocks
        before = {b.name.text: b.get(IMPOSED) for b in self._tree.blocks}
        return tuple(line_of(b, self._parts[0].casefold(), before.get(b.name.text)) or b for b in blocks)

    # --- the passages and other parts that play it -------------------------------------------------------

    def harms(
        self,
        block: Block,
        edits: Iterable[Edit],
        others: Mapping[str, tuple[Edit, ...]],
        judged: tuple[Judged, ...],
        rank: int,
    ) -> bool:
        """Whether a passage that plays the gesture, or another part, would get more findings of at least the given
        rank."""
        if any(other._worse(block, edits, others, rank) for other in self.others):
            return True
        return self._harms_passages(block, edits, others, judged, rank)

    def _worse(
        self, block: Block, edits: Iterable[Edit], others: Mapping[str, tuple[Edit, ...]], rank: int
    ) -> bool:
        """Whether this part would be worse off, if it also plays the gesture of another part."""
        before = self._judged.get(block.name.text)
        if before is None:
            return False
        after = self.read_again(block, edits)
        if after is None:
            return True
        found = Counter(f.rule for j in after for f in j.findings if _rank(f) >= rank)
        known = Counter(f.rule for f in before.findings if _rank(f) >= rank)
        if any(n > known[rule] for rule, n in found.items()):
            return True
        return self._harms_passages(block, edits, others, after, rank)

    def _harms_passages(
        self,
        block: Block,
        edits: Iterable[Edit],
        others: Mapping[str, tuple[Edit, ...]],
        judged: tuple[Judged, ...],
        rank: int,
    ) -> bool:
        names = self._played_by.get(block.name.text.casefold(), ())
        if not names:
            return False
        changed = {block.name.text.casefold(): self._parsed(block, edits)}
        for other, more in others.items():
            if (found := self._blocks.get(other.casefold())) is not None:
                changed[other.casefold()] = self._parsed(found, more)
        made = {j.case.gesture.name: j for j in judged}
        after = self._found(names, changed, made)
        if names not in self._before:
            self._before[names] = self._found(names, {}, {}) or tuple(Counter[str]() for _ in Severity)
        before = self._before[names]
        return after is None or any(n > before[rank][rule] for rule, n in after[rank].items())

    def passage_again(self, block: Block, edits: Iterable[Edit]) -> Verdict | None:
        """The verdict on a passage with edits applied; None if it can no longer be read."""
        name = block.name.text.casefold()
        said = self._judged_passages((name,), {name: self._parsed(block, edits)}, {})
        return None if said is None else verdict_of(said[name])

    @cached_property
    def _played_by(self) -> dict[str, tuple[str, ...]]:
        """For each gesture, the passages that play it, directly or through another passage."""
        found: dict[str, list[str]] = {}
        for block in self._blocks.values():
            if block.kind == "passage":
                for name in self._reached(block.name.text.casefold()):
                    found.setdefault(name, []).append(block.name.text.casefold())
        return {name: tuple(players) for name, players in found.items()}

    def _reached(self, passage: str) -> dict[str, None]:
        """The names of everything a passage plays, including itself."""
        found = {passage: None}
        waiting = [passage]
        while waiting:
            block = self._blocks.get(waiting.pop())
            entry = block.get("play") if block is not None and block.kind == "passage" else None
            if entry is None or not isinstance(entry.value, Play):
                continue
            for item in entry.value.items:
                name = item.name.text.casefold() if item.name is not None else ""
                if name and name not in found:
                    found[name] = None
                    waiting.append(name)
        return found

    def _found(
        self,
        names: tuple[str, ...],
        changed: dict[str, tuple[Block, ...] | None],
        made: dict[str, Judged],
    ) -> tuple[Counter[str], ...] | None:
        """The number of findings of each rule on the passages, by rank; None if they cannot be read."""
        passages = self._judged_passages(names, changed, made)
        if passages is None:
            return None
        counts = tuple(Counter[str]() for _ in Severity)
        for finding in (f for findings in passages.values() for f in findings):
            for rank in range(_rank(finding) + 1):
                counts[rank][finding.rule] += 1
        return counts

    def _judged_passages(
        self,
        names: tuple[str, ...],
        changed: dict[str, tuple[Block, ...] | None],
        made: dict[str, Judged],
    ) -> dict[str, tuple[Finding, ...]] | None:
        """The findings on the passages, and on those they play, by case-folded name, with some blocks changed; None
        if they cannot be read, or no more is tried."""
        if not self.may_go_on():
            return None
        needed = dict.fromkeys(n for name in names for n in self._reached(name))
        blocks: list[Block] = []
        for name in needed:
            if name in self._blocks:
                own = changed.get(name, (self._blocks[name],))
                if own is None:
                    return None
                blocks += own
        piece, errors = self._resolved(tuple(blocks), self._kept)
        if errors or piece is None:
            return None
        items = [item for passage in piece.passages for item in passage.items]
        notes = sum(i.gesture.size if i.gesture else 1 for i in items)
        self._left -= _EACH * len(piece.passages) + _PLAYED * notes
        judged = self._judged | made
        own_gestures = {g.name: g for g in piece.gestures}
        return {p.name.casefold(): passage_findings(p, own_gestures, judged)[1] for p in piece.passages}
