"""Files of earlier deliveries that nothing makes any more."""

from __future__ import annotations

import os
from collections.abc import Collection, Iterable, Mapping
from pathlib import Path, PurePosixPath

from gesturesmith.diagnostics import FileReport, GestureReport, PassageReport, Verdict
from gesturesmith.values import frozen
from gesturesmith.writers.base import is_ours

ASIDE = "stale"  # the folder that they are moved to


@frozen(kw_only=True)
class StaleFile:
    """A file that is still there though this delivery does not have it; `why`: in a few words."""

    place: str
    why: str


def stale(
    before: Mapping[str, str], made: Collection[str], folder: Path, reports: Mapping[str, FileReport]
) -> tuple[StaleFile, ...]:
    """The files of earlier deliveries that are still in the folder and were not made this time.

    before    their paths below the folder, each with the name of the file it is from
    reports   on the files of this delivery, by name
    """
    gone = (place for place in sorted(before) if place not in made and (folder / place).is_file())
    return tuple(StaleFile(place=place, why=_why(place, before[place], reports)) for place in gone)


def _why(place: str, source: str, reports: Mapping[str, FileReport]) -> str:
    report = reports.get(source)
    if report is None:
        return f"{source} is not in this delivery" if source else "nothing makes it now"
    name = PurePosixPath(place).stem
    everything: tuple[GestureReport | PassageReport, ...] = (*report.gestures, *report.passages)
    if report.errors and name not in (said.name for said in everything):
        line = report.errors[0].span.line
        return f"{source} has a mistake in line {line}"
    refused = {said.name for said in everything if said.verdict is Verdict.NOT_AS_WRITTEN}
    if name in refused:
        return f"{name} is refused now"
    return "renamed or removed, or for a paper, language or format that is not asked for now"


def put_aside(files: Iterable[StaleFile], folder: Path) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Move files into the folder for stale ones: those moved, and those left because they were edited since they
    were made. OSError from the machine."""
    moved, left = [], []
    for file in files:
        path = folder / file.place
        if path.is_symlink() or not is_ours(path.read_bytes()):
            left.append(file.place)
            continue
        target = _free(folder / ASIDE / file.place)
        target.parent.mkdir(parents=True, exist_ok=True)
        os.replace(path, target)
        moved.append(file.place)
        _remove_empty(path.parent, folder)
    return tuple(moved), tuple(left)


def _free(path: Path) -> Path:
    """The path, with a number if something is there already."""
    number = 1
    found = path
    while os.path.lexists(found):
        number += 1
        found = path.with_name(f"{path.stem}-{number}{path.suffix}")
    return found


def _remove_empty(folder: Path, top: Path) -> None:
    while folder != top and folder.is_dir() and not any(folder.iterdir()):
        folder.rmdir()
        folder = folder.parent
