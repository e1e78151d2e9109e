"""`gesturesmith write`: a page in the browser to write in."""

from __future__ import annotations

import html
import importlib.util
import os
import shutil
import sys
import tempfile
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

import click

from gesturesmith.cli.console import clean, complain, say
from gesturesmith.cli.input_files import ENDING, InputFile, find_files
from gesturesmith.cli.profiles import profiles_option
from gesturesmith.cli.status import Status
from gesturesmith.kinds import SandboxMode

if TYPE_CHECKING:
    from gesturesmith.live.server import PageServer

PORT = 8470
_NEEDED = ("starlette", "uvicorn")


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option("--no-browser", is_flag=True, help="Only print the address of the page.")
@click.option(
    "--port",
    type=click.IntRange(1, 65535),
    default=PORT,
    show_default=True,
    metavar="N",
    help="Where the page is served, on this machine only; another if a program has it.",
)
@click.option("--lilypond", metavar="PATH", help="The LilyPond to use.")
@click.option(
    "--sandbox",
    type=click.Choice(["auto", "always", "never"]),
    default="auto",
    show_default=True,
    help="Run LilyPond inside bubblewrap: if it is installed, always, or never.",
)
@profiles_option
def write(
    files: tuple[str, ...],
    no_browser: bool,
    port: int,
    lilypond: str | None,
    sandbox: SandboxMode,
    profiles: Path | None,
) -> Status:
    """Write FILE... in a page in the browser, and see while typing what can be played, and how it looks.

    A FILE that does not exist is begun. A folder stands for all its gesture files. What you type is saved when you
    rest, and nothing typed is lost: it is kept aside at once, and changes that other programs make to the same file
    are joined with yours. The page works without a network. Ctrl-C ends it.
    """
    missing = [name for name in _NEEDED if importlib.util.find_spec(name) is None]
    if missing:
        complain(f"the page needs {' and '.join(missing)}: pip install 'gesturesmith[write]'")
        return Status.INPUT
    paths = _paths(files)
    if paths is None:
        return Status.INPUT
    from gesturesmith import cache
    from gesturesmith.lilypond import find
    from gesturesmith.live.server import PageServer
    from gesturesmith.paths import user_state

    found = find(Path(lilypond) if lilypond else None, sandbox=sandbox)
    server = PageServer(paths, found, store=cache.open_store(), state=user_state(), profiles=profiles)
    return _serve(server, port, browser=not no_browser)


def _paths(named: tuple[str, ...]) -> tuple[Path, ...] | None:
    """The files to write, existing or new; None if one cannot be."""
    from gesturesmith.textfile import UnreadableFile, read

    found: list[Path] = []
    for name in named:
        if not os.path.lexists(name):
            path = Path(name)
            if not name.endswith(ENDING):
                path = path.with_name(f"{path.name}{ENDING}")
            if not path.parent.is_dir():
                complain(f"{clean(name)}: no such folder: {clean(str(path.parent))}")
                return None
            found.append(path)
            continue
        for one in find_files([name]):
            unread = one if isinstance(one, UnreadableFile) else read(one.path)
            if isinstance(unread, UnreadableFile):
                complain(f"{unread.name}: {unread.message}")
                return None
            assert isinstance(one, InputFile)
            found.append(Path(one.path))
    return tuple(dict.fromkeys(path.absolute() for path in found))


def _serve(server: PageServer, port: int, *, browser: bool) -> Status:
    from gesturesmith.live.server import bound, serve

    listening = bound(port)
    address = f"http://127.0.0.1:{listening.getsockname()[1]}/#{server.key}"
    folder = Path(tempfile.mkdtemp(prefix="gesturesmith-page-"))  # only its owner may look into it

    def started(_: object) -> None:
        opened = browser and _opened(address, folder)
        say(f"{'the page is open in your browser; its' if opened else 'open this'} address: {address}")
        say("Ctrl-C ends it")
        sys.stdout.flush()

    try:
        serve(server, listening, started)
    except KeyboardInterrupt:
        say("")  # after the ^C of the terminal
    finally:
        with suppress(OSError):
            shutil.rmtree(folder)
    return Status.GOOD


def _opened(address: str, folder: Path) -> bool:
    """Open the browser at an address that nobody else sees: its command line, which every user of this machine can
    read, only names a file that leads there."""
    import webbrowser

    if sys.platform not in ("win32", "darwin") and not any(map(os.environ.get, ("DISPLAY", "WAYLAND_DISPLAY"))):
        return False  # only a browser in the terminal would be found
    leads = folder / "open.html"
    with open(os.open(leads, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w", encoding="utf-8") as file:
        there = html.escape(address)
        file.write(
            f'<!doctype html><meta charset="utf-8"><meta name="referrer" content="no-referrer">'
            f'<meta http-equiv="refresh" content="0; url={there}"><title>Gesturesmith</title>'
            f'<p><a href="{there}">To the page</a></p>\n'
        )
    try:
        return webbrowser.open(leads.as_uri())
    except (OSError, webbrowser.Error):
        return False
