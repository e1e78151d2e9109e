"""Gestures and passages cached between runs: unchanged ones are neither checked nor engraved again."""

from __future__ import annotations

import re
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import replace
from functools import cache
from pathlib import Path

from gesturesmith import evidence, tones
from gesturesmith.backends.lilypond import EngravedMusic
from gesturesmith.cache import Store, file_digest, result_key, value_format
from gesturesmith.diagnostics import FileReport, GestureReport, changes, types
from gesturesmith.lang.nodes import Block, File
from gesturesmith.model import changes as in_passages
from gesturesmith.model import tempo
from gesturesmith.pipeline.types import Options
from gesturesmith.score import marks, music, rhythm
from gesturesmith.score.heads import Head
from gesturesmith.source import Source, Span, folded
from gesturesmith.units import Interval, Spelling
from gesturesmith.values import counted, frozen

_COMMENT = "#"
_WORD = re.compile(r"[^\W\d_][\w\u0300-\u036f]*(?:-[\w\u0300-\u036f]+)*")


@frozen(kw_only=True)
class CachedGesture:
    """A gesture or passage from an earlier run.

    report  of a gesture without findings, as if its block began on line 1; None for others, since findings may name
            other blocks and are made again
    engraving   its engraved music
    reads   other files that were read, with their hashes
    """

    report: GestureReport | None
    engraving: EngravedMusic
    reads: tuple[tuple[str, str], ...]


_FORM = value_format(
    (CachedGesture, EngravedMusic, Head, Interval, Spelling),
    (types, changes, evidence, in_passages, tempo, music, marks, rhythm, tones.types),
)


class GestureCache:
    """Gestures and passages cached by everything they are made from: the program, the file's settings, the lines of
    their block, the files they name, and the options. The position of a block in the file makes no difference. A
    passage plays other blocks, which may play others in turn, so it depends on all blocks; if a `part` plays it,
    on the whole file, since parts rest while others play."""

    def __init__(self, store: Store, source: Source, tree: File, options: Options, *, part: str = "") -> None:
        self._store = store
        self._lines = source.lines
        self._tree = tree
        self._blocks = {b.name.text: b for b in tree.blocks if b.kind != "exercises"}
        self._common = (*counted(options), part, repr(tree.settings) if part else _settings(self._lines, tree))
        self._with_text = options.reads_ly
        self._every = tuple(self._text(b) for b in self._blocks.values()) if not part else (source.text,)
        self._found = {name: kept for name in self._blocks if (kept := self._get(name)) is not None}

    @property
    def rest(self) -> File:
        """The tree without the gestures found in the cache; the whole tree if names are ambiguous."""
        names = [folded(b.name.text) for b in self._tree.blocks]
        if len(set(names)) < len(names):
            return self._tree
        # What a passage plays or an exercise varies is checked with it.
        others = (self._text(b) for b in self._tree.blocks if b.kind != "gesture")
        wanted = {word for text in others for word in _WORD.findall(folded(text))}
        blocks = (b for b in self._tree.blocks if folded(b.name.text) in wanted or not self._said(b.name.text))
        return replace(self._tree, blocks=tuple(blocks))

    def whole(self, report: FileReport) -> FileReport:
        """The report on the `rest`, with the cached reports of the others."""
        said = {g.name: g for g in report.gestures}
        for name, block in self._blocks.items():
            kept = self._said(name)
            if kept is not None and name not in said:
                line = block.span.line + kept.span.line - 1
                said[name] = replace(kept, span=Span(line, kept.span.column, kept.span.end_column))
        return replace(report, gestures=tuple(sorted(said.values(), key=lambda g: g.span.line)))

    def engraving(self, name: str) -> EngravedMusic | None:
        """The cached music of a gesture or passage, if any."""
        kept = self._found.get(name)
        return kept.engraving if kept is not None else None

    def put(self, made: EngravedMusic, report: FileReport, reads: Iterable[Path]) -> None:
        """Store the music of a gesture or passage, and the report of a gesture without findings."""
        name = made.music.name
        block = self._blocks[name]
        said = next((g for g in report.gestures if g.name == name and not g.findings), None)
        if said is not None:
            line = said.span.line - block.span.line + 1
            span = Span(line, said.span.column, said.span.end_column)
            said = replace(said, span=span, realisation=None)
        read = tuple((str(path.absolute()), file_digest(path) or "") for path in reads)
        with suppress(TypeError):  # a value that cannot be stored: it is made again next time, nothing is lost
            made_before = CachedGesture(report=said, engraving=made, reads=read)
            self._store.put(self._key(name, self._with_text), _FORM.dumps(made_before))

    def _said(self, name: str) -> GestureReport | None:
        kept = self._found.get(name)
        return kept.report if kept is not None else None

    def _get(self, name: str) -> CachedGesture | None:
        data = self._store.get(self._key(name, True))
        if data is None and not self._with_text:  # with its text it does as well
            data = self._store.get(self._key(name, False))
        if data is None:
            return None
        try:
            found = _FORM.loads(data)
        except ValueError:
            return None
        if not isinstance(found, CachedGesture) or any(_digest(path) != was for path, was in found.reads):
            return None
        return found

    def _key(self, name: str, with_text: bool) -> str:
        block = self._blocks[name]
        made_of = (self._text(block),) if block.kind == "gesture" else self._every
        return result_key("kept" if with_text else "kept without text", name, *self._common, *made_of)

    def _text(self, block: Block) -> str:
        return "\n".join(self._lines[block.span.line - 1 : block.last_line])


def _settings(lines: tuple[str, ...], tree: File) -> str:
    """The lines of a file outside blocks, without comments."""
    inside = {n for b in tree.blocks for n in range(b.span.line, b.last_line + 1)}
    outside = (line.strip() for number, line in enumerate(lines, start=1) if number not in inside)
    return "\n".join(line for line in outside if line and not line.startswith(_COMMENT))


@cache
def _digest(path: str) -> str | None:
    return file_digest(Path(path))
