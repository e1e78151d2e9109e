"""`gesturesmith answers`."""

from __future__ import annotations

import os
from pathlib import Path

import click

from gesturesmith.cli.console import clean, complain, say
from gesturesmith.cli.status import Status


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option("-o", "--output", metavar="FILE", help="Write the profile there instead of showing it.")
def answers(files: tuple[str, ...], output: str | None) -> Status:
    """Make a profile of the answers to try-out sheets.

    \b
    gesturesmith answers second-horn.toml -o second-horn-profile.toml

    The answers of one player become that player's profile. Those of several players of an instrument are pooled:
    each limit says how many tried it. `check` then says whose word a finding rests on.
    """
    from gesturesmith.exercises import answers as given

    read = [(name, *given.read(Path(name))) for name in files]
    for name, _, errors in read:
        for error in errors:
            complain(clean(f"{name}: {error.message}"))
    good = [found for _, found, _ in read if found is not None]
    if len(good) < len(read):
        return Status.INPUT
    apart = given.disagreements(good)
    for sentence in apart:
        complain(clean(sentence))
    if apart:
        return Status.INPUT
    player = good[0].player if len(good) == 1 else ""
    result = given.of_player(good[0]) if player else given.pooled(good)
    for note in result.notes:
        complain(clean(note))
    if not result.limits:
        complain("no limit follows from these answers")
        return Status.REFUSED
    profiled = good[0].based_on.endswith(".toml")
    from_here = Path(output).parent if output is not None else Path()
    based_on = _seen_from(from_here, Path(files[0]).parent / good[0].based_on) if profiled else ""
    text = given.profile(good[0].instrument, result, player, based_on=based_on)
    if output is not None:
        return _write(Path(output), text)
    say(text.rstrip("\n"))
    return Status.GOOD


def _seen_from(folder: Path, path: Path) -> str:
    """A path as a file in another folder names it."""
    return Path(os.path.relpath(path, folder)).as_posix()


def _write(place: Path, text: str) -> Status:
    from gesturesmith.delivery import blocked, new_file

    shown = clean(str(place))
    try:
        new_file(place, text.encode())
    except FileExistsError:
        complain(f"{shown} already exists and was not changed; choose another name")
        return Status.INPUT
    except (OSError, ValueError) as error:
        if isinstance(error, ValueError):
            complain(f"{shown} cannot be written")
            return Status.INPUT
        reason = blocked(error, shown)
        complain(reason.reason)
        return Status.MACHINE if reason.machine else Status.INPUT
    say(clean(f'wrote {shown}; name it in a piece: instrument: "{place.name}"'))
    return Status.GOOD
