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
    """A sketch of each gesture and passage, or of the one called `only`; those of a part in a folder of its own."""
    from gesturesmith.pictures.sketch import sketch
    from gesturesmith.pictures.strain import strain
    from gesturesmith.pipeline.naming import file_name

    for part in checked.parts:
        assert part.part is not None
        yield from sketches(part, only, folder / file_name(part.part.name))
    if checked.parts:
        return
    drawings: dict[str, tuple[str | None, str]] = {}
    for gesture in checked.report.gestures:
        case = checked.cases.get(gesture.name)
        if case is not None:
            drawings[gesture.name] = gesture.title, sketch(case, gesture.findings, gesture.verdict.words)
    for passage in checked.report.passages:
        whole = checked.passage_cases.get(passage.name)
        if whole is not None:
            drawings[passage.name] = passage.title, strain(whole, passage.findings, passage.verdict.words)
    for name, (title, drawing) in drawings.items():
        if only is not None and folded(only) != folded(name):
            continue
        if drawing:
            yield drawn(name, title or "", drawing, folder / file_name(name))


def drawn(name: str, title: str, drawing: str, place: PurePosixPath) -> Item:
    """A drawing as something to be written."""
    from gesturesmith.lytext import LyText
    from gesturesmith.writers import Item

    return Item(
        output=f"sketch-{name}",
        kind="sketch",
        place=place,
        name=name,
        title=title,
        excerpts=(name,),
        drawing=drawing,
        book=LyText(""),
        document=LyText(""),
    )
