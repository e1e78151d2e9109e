"""`gesturesmith language-server`."""

from __future__ import annotations

import os
import sys
from contextlib import redirect_stdout, suppress

import click

from gesturesmith.cli.console import complain
from gesturesmith.cli.status import Status


@click.command(name="language-server")
@click.option("--stdio", is_flag=True, help="Talk through standard input and output, as it always does.")
def language_server(stdio: bool) -> Status:
    """Check and complete gesture files inside an editor that speaks the Language Server Protocol.

    The editor starts it; "Editors" in the handbook says how. It needs the extra `editors` (pip install
    "gesturesmith[editors]").
    """
    try:
        from gesturesmith.lsp.server import server
    except ModuleNotFoundError as error:
        if error.name is not None and error.name.split(".")[0] == "gesturesmith":
            raise
        complain('gesturesmith: the language server needs an extra: pip install "gesturesmith[editors]"')
        return Status.MACHINE
    # The protocol closes the streams it is given, and whatever else is printed must not get into it.
    asked, told = os.fdopen(os.dup(0), "rb"), os.fdopen(os.dup(1), "wb")
    with asked, redirect_stdout(sys.stderr), suppress(ValueError):
        server().start_io(asked, told)
    return Status.GOOD
