"""The music of gestures and passages, kept from one run to the next: what was not touched is not engraved again."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress
from functools import cached_property
from pathlib import Path

from gesturesmith.cache import Store, digest, file_digest, fingerprint, plain
from gesturesmith.engrave import music
from gesturesmith.engrave.music import Music
from gesturesmith.lang.nodes import Block, File
from gesturesmith.pipeline.types import Options
from gesturesmith.source import Source

_FORM = plain((), (music,))
_COMMENT = "#"


class Shelf:
    """Music by what it is made of: this program, the file's settings, the lines of its block, the files they name,
    and the options. Where in the file a block stands makes no difference. A passage plays others, which play
    others in turn: it is made of all blocks."""

    def __init__(self, store: Store, source: Source, tree: File, options: Options, reads: Iterable[Path]) -> None:
        self._store = store
        self._lines = source.lines
        self._blocks = {b.name.text: b for b in tree.blocks if b.kind != "exercises"}
        self._inside = [(b.span.line, b.last_line) for b in tree.blocks]
        self._options = options
        self._reads = tuple(reads)

    def get(self, name: str, draft: tuple[str, ...]) -> Music | None:
        """The music of a gesture or passage, where it was kept."""
        data = self._store.get(self._key(name, draft))
        if data is None:
            return None
        try:
            found = _FORM.loads(data)
        except ValueError:
            return None
        return found if isinstance(found, Music) else None

    def put(self, made: Music) -> None:
        """Keep the music of a gesture or passage."""
        with suppress(TypeError):  # a value that has no form: it is engraved again, and nothing is lost
            self._store.put(self._key(made.name, made.draft), _FORM.dumps(made))

    def _key(self, name: str, draft: tuple[str, ...]) -> str:
        block = self._blocks[name]
        made_of = [self._text(block)] if block.kind == "gesture" else self._all
        return digest("music", name, *self._common, *draft, "", *made_of)

    @cached_property
    def _common(self) -> tuple[str, ...]:
        # What of the options does not reach the music is left out, so that other wishes find it again.
        wishes = Options(pitches=self._options.pitches, draft=self._options.draft)
        inside = {n for first, last in self._inside for n in range(first, last + 1)}
        settings = [
            line.strip()
            for number, line in enumerate(self._lines, start=1)
            if number not in inside and line.strip() and not line.strip().startswith(_COMMENT)
        ]
        read = [file_digest(path) or "" for path in self._reads]
        return (fingerprint(), repr(wishes), "\n".join(settings), *read)

    @cached_property
    def _all(self) -> tuple[str, ...]:
        return tuple(self._text(block) for block in self._blocks.values())

    def _text(self, block: Block) -> str:
        return "\n".join(self._lines[block.span.line - 1 : block.last_line])
