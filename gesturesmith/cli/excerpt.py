"""`gesturesmith excerpt`."""

from __future__ import annotations

import os
from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

import click

from gesturesmith.cli.console import complain, say
from gesturesmith.cli.scores import score_options, unknown_parts
from gesturesmith.cli.status import Status

if TYPE_CHECKING:
    from gesturesmith.importers.notated import NotatedScore

_ENDING = ".gesture"


@click.command()
@click.argument("file")
@click.option("--bars", metavar="A-B", help="The bars by their printed numbers, both included; else all.")
@click.option("--only", multiple=True, metavar="NAME", help="Only this part; may be repeated.")
@click.option("-o", "output", metavar="FILE", help="The file to write; else named after the score and the bars.")
@score_options
def excerpt(
    file: str,
    bars: str | None,
    only: tuple[str, ...],
    output: str | None,
    parts: Mapping[str, str],
    tempo: Fraction | None,
) -> Status:
    """Write bars of the score FILE (MusicXML) as a gesture file, to go on working with.

    Every phrase becomes a gesture. Repeats are not written out.
    """
    from gesturesmith.importers import excerpt as excerpts
    from gesturesmith.importers.files import read_score
    from gesturesmith.textfile import UnreadableFile, shown_name

    score = read_score(file, parts)
    if isinstance(score, UnreadableFile):
        complain(f"{score.name}: {score.message}")
        return Status.INPUT
    shown = shown_name(file)
    there = tuple(part.name for part in score.parts)
    for option, named, known in (("--part", (*parts,), (*there, *score.others)), ("--only", only, there)):
        missing = unknown_parts(named, known)
        if missing:
            complain(f"gesturesmith: {option}: {missing}")
            return Status.INPUT
    wanted = _wanted(score, bars)
    if wanted is None:
        complain(f"{shown}: {_no_bars(score, bars or '')}")
        return Status.INPUT
    made = excerpts.excerpt(score, wanted, name=os.path.basename(shown), only=only, tempo=tempo)
    if made is None:
        complain(f"{shown}: no brass part plays in these bars" if there else f"{shown}: no brass part in it")
        return Status.INPUT
    for error in score.errors[:20]:
        complain(f"{shown}: line {error.span.line}: {error.message}")
    target = output or _name(shown, bars)
    status = _write(target, made.text)
    if status is Status.GOOD:
        for one in made.left_out:
            complain(f"{target}: not in it: {one}")
    return Status.INPUT if score.errors and status is Status.GOOD else status


def _wanted(score: NotatedScore, bars: str | None) -> range | None:
    from gesturesmith.importers.excerpt import bars_named

    if bars is None:
        return range(len(score.bars))
    first, dash, last = bars.partition("-")
    return bars_named(score, first.strip(), (last if dash else first).strip())


def _no_bars(score: NotatedScore, bars: str) -> str:
    numbers = (score.bars[0].number, score.bars[-1].number)
    return f"there are no bars {bars!r} in it; write --bars {numbers[0]}-{numbers[1]}, or fewer of them"


def _name(file: str, bars: str | None) -> str:
    """The score's name without its ending, in the working folder, and the bars."""
    stem = os.path.splitext(os.path.basename(file))[0]
    span = "".join(sign if sign.isalnum() else "-" for sign in bars) if bars else ""
    return f"{stem}-bars-{span}{_ENDING}" if span else f"{stem}{_ENDING}"


def _write(path: str, text: str) -> Status:
    from gesturesmith.delivery import blocked, new_file

    try:
        new_file(Path(path), text.encode())
    except FileExistsError:
        complain(f"{path} already exists and was not changed; choose another name with -o")
        return Status.INPUT
    except (FileNotFoundError, NotADirectoryError):
        complain(f"{path}: no such folder: {os.path.dirname(path)}")
        return Status.INPUT
    except (PermissionError, ValueError):
        complain(f"{path} cannot be written")
        return Status.INPUT
    except OSError as error:
        reason = blocked(error, path)
        complain(reason.reason)
        return Status.MACHINE if reason.machine else Status.INPUT
    say(f"wrote {path}")
    return Status.GOOD
