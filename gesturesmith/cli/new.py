"""`gesturesmith new`."""

from __future__ import annotations

import os
from pathlib import Path

import click

from gesturesmith.cli.console import clean, complain, say
from gesturesmith.cli.status import Status


@click.command()
@click.argument("name")
def new(name: str) -> Status:
    """Write NAME.gesture, a commented file to start from."""
    from gesturesmith import paths
    from gesturesmith.delivery import blocked, new_file

    path = name if name.endswith(".gesture") else f"{name}.gesture"
    shown = clean(path).replace("\n", "\ufffd")
    stem = os.path.basename(shown).removesuffix(".gesture")
    if not stem.strip("."):
        complain(f"{shown} has no name before its ending; try gesturesmith new study")
        return Status.INPUT
    title = stem.replace("\\", "\\\\").replace('"', '\\"')
    starter = (paths.templates() / "starter.gesture").read_text("utf-8")
    text = starter.replace('title: "Starter"', f'title: "{title}"')
    try:
        new_file(Path(path), text.encode())
    except FileExistsError:
        complain(f"{shown} already exists and was not changed; choose another name")
        return Status.INPUT
    except (FileNotFoundError, NotADirectoryError):
        complain(f"{shown}: no such folder: {os.path.dirname(path)}")
        return Status.INPUT
    except (PermissionError, ValueError):
        complain(f"{shown} cannot be written")
        return Status.INPUT
    except OSError as error:
        reason = blocked(error, shown)
        complain(reason.reason)
        return Status.MACHINE if reason.machine else Status.INPUT
    say(f"wrote {shown}; now: gesturesmith check {_quoted(shown)}")
    return Status.GOOD


def _quoted(path: str) -> str:
    """A path quoted for a shell, with a leading dash made harmless."""
    import shlex

    return shlex.quote(f"./{path}" if path.startswith("-") else path)
