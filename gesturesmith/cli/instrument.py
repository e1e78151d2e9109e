"""An instrument from the command line, for pages that come from no file."""

from __future__ import annotations

from pathlib import Path

from gesturesmith.cli.console import clean
from gesturesmith.instruments.base import Instrument


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
