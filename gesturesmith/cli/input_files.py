"""Files and folders from the command line, as one list of files, each with the place of its outputs."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterable, Iterator
from pathlib import Path, PurePosixPath

from gesturesmith.cli.console import clean
from gesturesmith.paths import lies_within
from gesturesmith.source import Source
from gesturesmith.textfile import UnreadableFile, read
from gesturesmith.values import frozen

ENDING = ".gesture"


@frozen(kw_only=True)
class InputFile:
    """A file to read. `place` is the folder of its outputs below the output folder, `stem` their name.

    `named` is False if it was found in a folder.
    """

    path: str
    place: PurePosixPath
    stem: str
    named: bool = True


@frozen(kw_only=True)
class InputFiles:
    """All named files: texts with their origin, unreadable files, and all paths."""

    read: tuple[tuple[InputFile, Source], ...]
    unread: tuple[UnreadableFile, ...]
    paths: tuple[str, ...]


def read_all(named: Iterable[str]) -> InputFiles:
    """The files found by `find_files`, read."""
    found = find_files(named)
    texts = [(one, read(one.path)) for one in found if isinstance(one, InputFile)]
    return InputFiles(
        read=tuple((one, text) for one, text in texts if isinstance(text, Source)),
        unread=(
            *(one for one in found if isinstance(one, UnreadableFile)),
            *(text for _, text in texts if isinstance(text, UnreadableFile)),
        ),
        paths=tuple(one.path for one in found if isinstance(one, InputFile)),
    )


def find_files(named: Iterable[str]) -> tuple[InputFile | UnreadableFile, ...]:
    """The files named, and those ending in `.gesture` in and below the folders named.

    In the given order, those of a folder sorted; hidden files and folders are skipped, and each file appears once.
    A folder without any counts as unreadable.
    """
    found: list[InputFile | UnreadableFile] = []
    seen: set[str] = set()
    for name in named:
        for one in _in_folder(name) if _is_folder(name) else (_file(name, PurePosixPath()),):
            key = _real(one.path) if isinstance(one, InputFile) else f"\n{one.name}"
            if key not in seen:
                seen.add(key)
                found.append(one)
    return tuple(found)


def _in_folder(folder: str) -> Iterator[InputFile | UnreadableFile]:
    errors: list[OSError] = []
    empty = True
    for place, folders, files in os.walk(folder, onerror=errors.append):
        folders[:] = sorted(f for f in folders if not f.startswith("."))
        below = PurePosixPath(os.path.relpath(place, folder).replace(os.sep, "/"))
        for name in sorted(files):
            if name.endswith(ENDING) and not name.startswith("."):
                empty = False
                mirrored = PurePosixPath(*(_shown(part) for part in below.parts))
                path = os.path.join(place, name)
                if not _is_plain(path):
                    yield _unread(path, "not a regular file")
                elif not lies_within(Path(path), Path(folder)):
                    # The folder may be somebody else's, and messages quote lines of the files read.
                    yield _unread(path, "a link that leads out of the folder; name its target instead")
                else:
                    yield _file(path, mirrored, named=False)
    for error in errors:
        message = f"cannot read this folder: {os.strerror(error.errno or 0)}"
        yield UnreadableFile(name=_shown(str(error.filename)), code="GS192", rule="not-allowed", message=message)
    if empty and not errors:
        message = f"no {ENDING} file in this folder"
        yield UnreadableFile(name=_shown(folder), code="GS191", rule="a-folder", message=message)


def _file(path: str, place: PurePosixPath, *, named: bool = True) -> InputFile:
    name = os.path.basename(path)
    stem = name.removesuffix(ENDING)
    # A stem of only dots would name a folder: this one, or its parent.
    return InputFile(path=path, place=place, stem=_shown(stem if stem.strip(".") else name), named=named)


def _is_plain(path: str) -> bool:
    """Whether it is a regular file, not something that would block, such as a pipe; True if unknown."""
    try:
        return stat.S_ISREG(os.stat(path).st_mode)
    except OSError:
        return True


def _unread(path: str, message: str) -> UnreadableFile:
    return UnreadableFile(name=_shown(path), code="GS196", rule="cannot-be-read", message=message)


def _shown(name: str) -> str:
    """A name without unprintable characters."""
    return clean(name).replace("\n", "\ufffd")


def _is_folder(name: str) -> bool:
    try:
        return os.path.isdir(name)
    except ValueError:  # a null byte in the name
        return False


def _real(path: str) -> str:
    try:
        return os.path.realpath(path)
    except (OSError, ValueError):
        return path
