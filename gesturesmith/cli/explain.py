"""`gesturesmith explain`."""

from __future__ import annotations

import click

from gesturesmith.cli.console import clean, complain, say
from gesturesmith.cli.status import Status


@click.command()
@click.argument("name", metavar="NAME")
def explain(name: str) -> Status:
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
    return Status.GOOD


def _near(wanted: str) -> str:
    import difflib

    from gesturesmith import rules, techniques
    from gesturesmith.explain.limits import limit_names
    from gesturesmith.explain.mistakes import codes

    everything = (*techniques.names(), *rules.names(), *codes(), *limit_names())
    near = techniques.called(wanted) or difflib.get_close_matches(wanted, everything, n=3)
    return f"; did you mean {' or '.join(near)}?" if near else "; see gesturesmith list rules, list techniques"
