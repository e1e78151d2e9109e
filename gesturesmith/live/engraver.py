"""Pictures of what is at the cursor: the newest wish is made, older ones are given up."""

from __future__ import annotations

import threading
from collections import OrderedDict
from dataclasses import replace
from pathlib import Path

from gesturesmith import writers
from gesturesmith.cache import Store
from gesturesmith.checker import Checked
from gesturesmith.lilypond import Job, LilyPond, LilyPondPool, MissingLilyPond, failure
from gesturesmith.source import folded
from gesturesmith.values import frozen
from gesturesmith.writers import Item

_FORMATS = ("svg",)
_PATIENCE_S = 60.0
_KEPT = 200  # pictures of some 50 kB


@frozen(kw_only=True)
class EngravedPicture:
    """An engraving: its SVG and what it shows, in words. `why` instead, if it could not be made."""

    svg: bytes = b""
    description: str = ""
    why: str = ""


class Engraver:
    """A LilyPond that is always ready. Threads may share it; close it in the end."""

    def __init__(self, lilypond: LilyPond | MissingLilyPond, store: Store) -> None:
        self.lilypond = lilypond
        self._pool = LilyPondPool(lilypond, keeper=store) if isinstance(lilypond, LilyPond) else None
        self._compiled = False
        self._lock = threading.Lock()
        self._newest: dict[str, int] = {}
        self._kept: OrderedDict[str, bytes] = OrderedDict()

    def ready(self) -> None:
        """Have a LilyPond wait for the next picture. OSError if it cannot be started."""
        if self._pool is not None:
            self._pool.ready(_FORMATS)

    def hasten(self) -> None:
        """Once there is a picture: spend a second on having later ones sooner."""
        if self._pool is not None and self._kept and not self._compiled:
            self._compiled = True
            self._pool.compile(at_once=True)

    def close(self) -> None:
        """End every LilyPond."""
        if self._pool is not None:
            self._pool.close()

    def wish(self, window: str) -> int:
        """The number of a new wish of a window, which makes those before it void."""
        with self._lock:
            self._newest[window] = self._newest.get(window, 0) + 1
            return self._newest[window]

    def picture(self, window: str, wish: int, item: Item) -> EngravedPicture | None:
        """The picture of an item; None if there is a newer wish. OSError if LilyPond cannot be started."""
        if self._pool is None:
            reason = self.lilypond.reason if isinstance(self.lilypond, MissingLilyPond) else ""
            return EngravedPicture(why=reason)
        kept = self._recall(item.document)
        if kept is not None:
            return EngravedPicture(svg=kept, description=item.description)
        job = Job(document=item.document, timeout_s=_PATIENCE_S)
        run = self._pool.newest(_FORMATS, job) if wish == self._newest.get(window) else None
        if run is None:
            if wish != self._newest.get(window):
                return None
            run = self._pool.one(_FORMATS, job)  # another window came between
        data = run.file(item.output, "svg")
        failed = failure(job.document, run.messages, run.ended, () if data else ("",))
        if failed is not None or data is None:
            return EngravedPicture(why=failed.summary if failed is not None else "LilyPond made no picture")
        svg = writers.get("svg").finish(item, data)
        with self._lock:
            self._kept[item.document] = svg
            while len(self._kept) > _KEPT:
                self._kept.popitem(last=False)
        return EngravedPicture(svg=svg, description=item.description)

    def _recall(self, document: str) -> bytes | None:
        with self._lock:
            if document in self._kept:
                self._kept.move_to_end(document)
            return self._kept.get(document)


def item_of(checked: Checked, name: str, folder: Path) -> Item | None:
    """What is engraved of a gesture or passage, marked as a draft if it is refused; of a passage for several parts,
    the score. None if it cannot be read."""
    from gesturesmith.pipeline import Options, parts
    from gesturesmith.pipeline.music import engraved
    from gesturesmith.pipeline.picture import snippet

    whole = checked.report
    report = replace(
        whole,
        gestures=tuple(g for g in whole.gestures if folded(g.name) == folded(name)),
        passages=tuple(p for p in whole.passages if folded(p.name) == folded(name)),
        exercises=(),
    )
    options = Options(folder=folder, only=name, formats=_FORMATS, draft=report.refused, pages=False)
    if checked.parts:
        items = parts.compiled(checked, options, None, (), None)[0]
        scores = tuple(item for item in items if item.kind == "score")
        return next(iter((*scores, *items)), None)
    piece = checked.reading.piece
    if piece is None:
        return None
    made = (
        snippet(music, "s00001", piece.settings, options.place)
        for music in engraved(checked, report, piece.settings, options, None)
    )
    return next(made, None)
