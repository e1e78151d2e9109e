"""`gesturesmith explain`."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path, PurePosixPath

import click

from gesturesmith.cli.console import clean, complain, say
from gesturesmith.cli.status import Status


@click.command()
@click.argument("name", metavar="NAME")
@click.option(
    "--sketch",
    "place",
    metavar="FILE",
    help="Also draw it: the example of a rule, or a gesture with a technique, as an SVG in FILE.",
)
def explain(name: str, place: str | None) -> Status:
    """Explain a rule, a technique, a mistake in a file or a limit of an instrument.

    NAME is the name that a message shows, or its code: harmonic-gliss-off-ladder, GS203, half-valve,
    unknown-key, GS101, breath_litres. `difficulty` is explained too.
    """
    from gesturesmith.explain.lookup import explained

    text = explained(name.strip().lower())
    if text is None:
        complain(f"nothing is called {clean(name)}{_near(name.strip().lower())}")
        return Status.INPUT
    say(text.rstrip("\n"))
    return _drawn(name.strip().lower(), Path(place)) if place is not None else Status.GOOD


def _drawn(wanted: str, place: Path) -> Status:
    """Write the sketch that belongs to an explanation."""
    from gesturesmith import writers
    from gesturesmith.delivery import Blocked, deliver
    from gesturesmith.pipeline.example import example

    item = example(wanted)
    if item is None:
        complain(f"there is no sketch of {clean(wanted)}: rules and techniques have one")
        return Status.INPUT
    outputs = writers.get("sketch").outputs((item,), {})
    named = [replace(output, place=PurePosixPath(place.name)) for output in outputs]
    done = deliver(named, place.parent, inputs=())
    if isinstance(done, Blocked):
        complain(clean(done.reason))
        return Status.MACHINE if done.machine else Status.INPUT
    say(f"\n  {clean(str(place))}")
    return Status.GOOD


def _near(wanted: str) -> str:
    import difflib

    from gesturesmith import rules, techniques
    from gesturesmith.explain.limits import limit_names
    from gesturesmith.explain.mistakes import codes

    everything = (*techniques.names(), *rules.names(), *codes(), *limit_names())
    near = techniques.called(wanted) or difflib.get_close_matches(wanted, everything, n=3)
    return f"; did you mean {' or '.join(near)}?" if near else "; see gesturesmith list rules, list techniques"
