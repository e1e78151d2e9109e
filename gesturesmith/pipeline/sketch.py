"""Sketches of everything in a file, refused gestures too: they show why."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from gesturesmith.checker import Checked
from gesturesmith.source import folded

if TYPE_CHECKING:  # `check` needs neither pictures nor writers
    from gesturesmith.writers import Item

SKETCH = "sketch"  # the format, and the kind of its items


def sketches(checked: Checked, only: str | None, folder: PurePosixPath) -> Iterator[Item]:
    """A sketch of each gesture, or of the one called `only`; those of a part in a folder of its own."""
    from gesturesmith.lytext import LyText
    from gesturesmith.pictures import sketch
    from gesturesmith.pipeline.naming import file_name
    from gesturesmith.writers import Item

    for part in checked.parts:
        assert part.part is not None
        yield from sketches(part, only, folder / file_name(part.part.name))
    said = {gesture.name: gesture for gesture in checked.report.gestures} if not checked.parts else {}
    for name, case in checked.cases.items():
        report = said.get(name)
        if report is None or (only is not None and folded(only) != folded(name)):
            continue
        yield Item(
            output=f"sketch-{name}",
            kind="sketch",
            place=folder / file_name(name),
            name=name,
            title=case.gesture.title or "",
            excerpts=(name,),
            drawing=sketch(case, report.findings, report.verdict.words),
            book=LyText(""),
            document=LyText(""),
        )
