"""What `check` and `excerpt` have in common for scores: which part is for which instrument, and the tempo."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction
from typing import Any

import click

_TEMPO = click.FloatRange(20, 300)


def _parts(context: click.Context, option: click.Parameter, values: tuple[str, ...]) -> dict[str, str]:
    """`Horn 1=horn`, as often as there are parts to name."""
    from gesturesmith import instruments

    found: dict[str, str] = {}
    for value in values:
        name, equals, word = value.rpartition("=")
        if not equals or not name.strip():
            raise click.BadParameter('write NAME=INSTRUMENT, such as "Horn 1=horn"', context, option)
        called = (word.strip(),) if word.strip() in instruments.names() else instruments.called(word)
        if not called:
            raise click.BadParameter(
                f"no instrument is called {word.strip()!r}; gesturesmith list instruments", context, option
            )
        found[name.strip()] = called[0]
    return found


def _tempo(context: click.Context, option: click.Parameter, value: float | None) -> Fraction | None:
    return Fraction(value).limit_denominator(1000) if value is not None else None


_parts_option = click.option(
    "--part",
    "parts",
    multiple=True,
    callback=_parts,
    metavar="NAME=INSTRUMENT",
    help="What a part of a score is for, where its name does not tell; may be repeated.",
)
_tempo_option = click.option(
    "--tempo",
    type=_TEMPO,
    callback=_tempo,
    metavar="N",
    help="Quarters a minute where a score has no tempo; 90 if it is not given.",
)


def score_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """The options `--part` and `--tempo`."""
    return _parts_option(_tempo_option(command))


def unknown_parts(named: Iterable[str], there: Iterable[str]) -> str:
    """What to say of parts that no score has; "" if each is there."""
    from gesturesmith.source import folded

    names = tuple(dict.fromkeys(there))
    known = {folded(name) for name in names}
    missing = next((name for name in named if folded(name) not in known), None)
    if missing is None:
        return ""
    shown = ", ".join(names[:20]) or "none"
    return f"no part is called {missing!r}; there are: {shown}"
