"""The commands, each in a file of its own."""

from __future__ import annotations

import click

from gesturesmith import __version__
from gesturesmith.cli.check import check
from gesturesmith.cli.engrave import engrave
from gesturesmith.cli.explain import explain
from gesturesmith.cli.format import format_
from gesturesmith.cli.listing import list_
from gesturesmith.cli.new import new


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="gesturesmith", message="%(prog)s %(version)s")
def cli() -> None:
    """Brass gestures from a short text: checked against the instrument, engraved for the player.

    \b
    gesturesmith new study          writes study.gesture, to begin with
    gesturesmith check study.gesture
    gesturesmith engrave study.gesture
    """


for command in (new, check, engrave, explain, format_, list_):
    cli.add_command(command)
