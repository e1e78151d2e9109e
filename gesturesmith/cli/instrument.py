"""Instrument, wording and paper from the command line, for pages that come from no file."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import click

from gesturesmith.cli.console import clean
from gesturesmith.instruments.base import Instrument


def languages(context: click.Context, option: click.Parameter, value: str | None) -> tuple[str, ...]:
    """Languages of a page: one, or two with a comma; () for none."""
    if value is None:
        return ()
    from gesturesmith import wording

    asked = tuple(dict.fromkeys(w.strip().lower() for w in value.split(",") if w.strip()))
    known = wording.languages()
    unknown = [w for w in asked if w not in known]
    if unknown or not 0 < len(asked) <= 2:
        wrong = f"unknown language '{clean(unknown[0])}'" if unknown else "give one or two languages"
        raise click.BadParameter(f"{wrong} (choose from {', '.join(known)}, for example en,de)", context, option)
    return asked


def _paper(context: click.Context, option: click.Parameter, value: str) -> tuple[str, tuple[Fraction, Fraction]]:
    from gesturesmith.model.settings import PAPERS

    name = value.strip().lower()
    if name not in PAPERS:
        raise click.BadParameter(
            f"unknown paper '{clean(value)}' (choose from {', '.join(PAPERS)})", context, option
        )
    return name, PAPERS[name]


def page_options[C: Callable[..., Any]](command: C) -> C:
    """Give a command `--wording` and `--paper`."""
    paper = click.option(
        "--paper", callback=_paper, default="a4", show_default=True, metavar="PAPER", help="a4 or letter."
    )
    words = click.option(
        "--wording",
        callback=languages,
        default="en",
        show_default=True,
        metavar="LANGUAGES",
        help="Language of the page: en, de, fr, it, or two separated by a comma.",
    )
    return words(paper(command))


def instrument_of(name: str) -> Instrument | str:
    """The instrument of this name, or of the profile at this path; otherwise an error."""
    import difflib

    from gesturesmith import instruments

    if name.endswith(".toml"):
        from gesturesmith.instruments import profile

        found, errors = profile.load(Path(name))
        return found if found is not None and not errors else f"{clean(name)}: {errors[0].message}"
    if name in instruments.names():
        return instruments.get(name)
    near = difflib.get_close_matches(name, instruments.names(), n=3) or instruments.names()
    return (
        f"unknown instrument '{clean(name)}'; did you mean {' or '.join(near)}?"
        if len(near) < 4
        else (f"unknown instrument '{clean(name)}' (choose from {', '.join(near)})")
    )
