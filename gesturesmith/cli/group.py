"""The commands, one file each, imported on use."""

from __future__ import annotations

import importlib

import click

from gesturesmith.cli.console import clean
from gesturesmith.version import __version__

# Command -> its place, in the order of `--help`. Editors call `check` all the time: it must not import the others.
_COMMANDS = {
    "new": "gesturesmith.cli.new:new",
    "write": "gesturesmith.cli.write:write",
    "check": "gesturesmith.cli.check:check",
    "excerpt": "gesturesmith.cli.excerpt:excerpt",
    "suggest": "gesturesmith.cli.suggest:suggest",
    "engrave": "gesturesmith.cli.engrave:engrave",
    "watch": "gesturesmith.cli.watch:watch",
    "notes": "gesturesmith.cli.notes:notes",
    "sheet": "gesturesmith.cli.sheet:sheet",
    "term": "gesturesmith.cli.term:term",
    "deliver": "gesturesmith.cli.deliver:deliver",
    "chart": "gesturesmith.cli.chart:chart",
    "try-out": "gesturesmith.cli.try_out:try_out",
    "answers": "gesturesmith.cli.answers:answers",
    "explain": "gesturesmith.cli.explain:explain",
    "format": "gesturesmith.cli.format:format_",
    "language-server": "gesturesmith.cli.language_server:language_server",
    "cache": "gesturesmith.cli.cache:cache",
    "list": "gesturesmith.cli.listing:list_",
}


# What people type instead.
_MEANT = {
    "lint": "check", "validate": "check", "verify": "check", "test": "check",
    "fix": "suggest", "repair": "suggest", "advise": "suggest", "help": "--help",
    "render": "engrave", "print": "engrave", "build": "engrave", "make": "engrave", "pdf": "engrave",
    "edit": "write", "open": "write", "page": "write",
    "why": "explain", "describe": "explain", "tidy": "format", "ls": "list", "show": "list", "create": "new",
}  # fmt: skip


class _Commands(click.Group):
    """A group that imports a command on use."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(_COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in _COMMANDS:
            return None
        module, _, name = _COMMANDS[cmd_name].partition(":")
        command: click.Command = getattr(importlib.import_module(module), name)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command as usual; for an unknown one, suggest the one that may have been meant."""
        if args and args[0] not in _COMMANDS and not args[0].startswith("-"):
            ctx.fail(_no_such_command(args[0]))
        return super().resolve_command(ctx, args)


def _no_such_command(word: str) -> str:
    import difflib

    shown = clean(word)
    if word.endswith(".gesture"):
        return f"missing command; did you mean `gesturesmith check {shown}`?"
    meant = _MEANT.get(word.lower())
    near = [meant] if meant else difflib.get_close_matches(word.lower(), _COMMANDS, n=2)
    hint = f"did you mean {' or '.join(near)}?" if near else f"choose from {', '.join(_COMMANDS)}"
    return f"unknown command '{shown}'; {hint}"


def _remember(context: click.Context, option: click.Parameter, value: bool) -> None:
    """Remember `--verbose`, which is read before `--version` in any position."""
    context.meta["verbose"] = value


def _version(context: click.Context, option: click.Parameter, value: bool) -> None:
    if not value:
        return
    click.echo(f"gesturesmith {__version__}")
    if context.meta["verbose"]:
        from gesturesmith.cli.machine import lines

        for line in lines():
            click.echo(clean(line))
    context.exit()


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.option("--verbose", is_flag=True, is_eager=True, expose_value=False, callback=_remember, hidden=True)
@click.option(
    "--version",
    is_flag=True,
    expose_value=False,
    callback=_version,
    help="Show the version and exit; with --verbose also Python, libraries and LilyPond.",
)
def cli() -> None:
    """Brass gestures from a short text: checked against the instrument, engraved for the player.

    \b
    gesturesmith new study          writes study.gesture to start from
    gesturesmith check study.gesture
    gesturesmith engrave study.gesture
    """
