"""`--json-schema`, for every command with `--json`: what programs may rely on."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import click

from gesturesmith.cli.console import say_bytes


def schema_option(name: str) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """An option that prints the schema called `name` and does nothing else."""

    def show(context: click.Context, option: click.Parameter, value: bool) -> None:
        if value:
            from gesturesmith import paths

            say_bytes((paths.schemas() / f"{name}.json").read_bytes())
            context.exit()

    return click.option(
        "--json-schema",
        is_flag=True,
        is_eager=True,
        expose_value=False,
        callback=show,
        help="Print the JSON Schema of the --json output, and nothing else.",
    )
