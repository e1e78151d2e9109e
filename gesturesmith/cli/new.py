"""`gesturesmith new`."""

from __future__ import annotations

import os

import click

from gesturesmith.cli.console import clean, complain, say
from gesturesmith.cli.status import Status


@click.command()
@click.argument("name")
def new(name: str) -> Status:
    """Write NAME.gesture, a commented file to begin with."""
    from gesturesmith import paths

    path = name if name.endswith(".gesture") else f"{name}.gesture"
    title = clean(os.path.basename(path).removesuffix(".gesture")).replace("\\", "\\\\").replace('"', '\\"')
    starter = (paths.templates() / "starter.gesture").read_text("utf-8")
    text = starter.replace('title: "Starter"', f'title: "{title}"')
    try:
        with open(path, "x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        complain(f"{path} is there already and is left as it is; choose another name")
        return Status.INPUT
    except (FileNotFoundError, NotADirectoryError):
        complain(f"{path}: there is no folder {os.path.dirname(path)}")
        return Status.INPUT
    except (PermissionError, ValueError):
        complain(f"{path} cannot be written")
        return Status.INPUT
    shown = clean(path)
    say(f"wrote {shown}; now: gesturesmith check {_quoted(shown)}")
    return Status.GOOD


def _quoted(path: str) -> str:
    """A path as a shell takes it, one that begins with a dash made harmless."""
    import shlex

    return shlex.quote(f"./{path}" if path.startswith("-") else path)
