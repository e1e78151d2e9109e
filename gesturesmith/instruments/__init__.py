"""Instruments, found by file name."""

from __future__ import annotations

from gesturesmith import registry
from gesturesmith.instruments.base import Instrument


def names() -> tuple[str, ...]:
    """The keys of all instruments, sorted."""
    return registry.names(__name__)


def get(name: str) -> Instrument:
    """The instrument called `name`; KeyError if there is none."""
    instrument: Instrument = registry.module(__name__, name).INSTRUMENT
    return instrument


def called(word: str) -> tuple[str, ...]:
    """At most three instruments whose part has this name in any language ("Tromba"), the plainest first."""
    wanted = word.casefold()
    found = [
        name
        for name in names()
        if wanted in {part.split()[0].casefold() for part in (get(name).part_name, *get(name).part_names.values())}
    ]
    return tuple(sorted(found, key=lambda name: (name.count("-"), name))[:3])
