"""Where profiles may be read from: `--profiles`, the same for every command that reads gesture files."""

from __future__ import annotations

from pathlib import Path

import click


def _folder(context: click.Context, option: click.Parameter, value: str | None) -> Path | None:
    if value is None:
        return None
    if not Path(value).is_dir():
        raise click.BadParameter("no such folder", context, option)
    return Path(value)


profiles_option = click.option(
    "--profiles",
    callback=_folder,
    metavar="DIR",
    help="Folder of instrument and player profiles; by default that of each FILE.",
)


def folder_of(path: str, profiles: Path | None) -> Path:
    """The folder in which, and below which, a gesture file may name profiles."""
    return profiles if profiles is not None else Path(path).parent
