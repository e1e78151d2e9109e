"""A copy of a gesture file with refusals fixed: where it goes, and what it never overwrites."""

from __future__ import annotations

from pathlib import Path, PurePosixPath

from gesturesmith.cli.console import clean


def copy_text(text: str, name: str) -> str:
    """The text of a copy of the file called `name`."""
    from gesturesmith.writers.base import text_with_checksum

    body = text if text.endswith("\n") else f"{text}\n"
    shown = clean(name).replace("\n", "\ufffd")
    return text_with_checksum("#", body, f" from {shown}, with what was refused fixed").decode()


def copy_place(path: Path, asked: str | None) -> Path:
    """The path of the copy: beside the file, at the place asked for, or in that folder."""
    name = f"{path.name.removesuffix('.gesture')}-suggested.gesture"
    if asked is None:
        return path.with_name(name)
    place = Path(asked)
    return place / name if place.is_dir() else place


def objection(place: Path, original: Path) -> str | None:
    """Why a copy may not be written there, or None."""
    from gesturesmith.writers.base import bears_mark, is_ours

    shown = clean(str(place))
    try:
        if not place.exists() and not place.is_symlink():
            return None
        if place.is_dir():
            return f"{shown} is a folder"
        if place.exists() and place.samefile(original):
            return f"{shown} is the file itself, which is never changed; choose another name with -o"
        if not place.is_file():
            return f"{shown} is not a regular file; choose another name with -o"
        data = place.read_bytes()
    except (OSError, ValueError):
        return f"{shown} cannot be inspected; choose another name with -o"
    if not bears_mark(data):
        return f"{shown} already exists and is not such a copy; choose another name with -o"
    if not is_ours(data):
        return f"{shown} already exists and has been edited; choose another name with -o"
    return None


def write_copy(place: Path, text: str, original: Path) -> tuple[str, bool] | None:
    """Write it, completely or not at all; returns why it failed, if so, and whether the machine is to blame."""
    from gesturesmith.delivery import Blocked, deliver
    from gesturesmith.writers.base import Output

    output = Output(place=PurePosixPath(place.name), data=text.encode())
    done = deliver([output], place.parent, inputs=[original])
    return (done.reason, done.machine) if isinstance(done, Blocked) else None
