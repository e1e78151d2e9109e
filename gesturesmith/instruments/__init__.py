"""Instruments, found by file name."""

from __future__ import annotations

from functools import cache

from gesturesmith import registry
from gesturesmith.instruments.base import Instrument
from gesturesmith.source import as_said


def names() -> tuple[str, ...]:
    """The keys of all instruments, sorted."""
    return registry.names(__name__)


def get(name: str) -> Instrument:
    """The instrument called `name`; KeyError if there is none."""
    instrument: Instrument = registry.module(__name__, name).INSTRUMENT
    return instrument


def called(word: str) -> tuple[str, ...]:
    """At most three instruments with this name in any language ("Tromba"), the plainest first.

    By the whole name, else by its first word; a player's number ("Horn 2") is ignored.
    """
    said = " ".join(w for w in as_said(word).split() if not w.isdigit()).rstrip("s")
    whole, first = _spoken()
    found = whole.get(said) or first.get(said, ())
    return tuple(sorted(found, key=lambda name: (name.count("-"), name))[:3])


def names_of(name: str) -> tuple[str, ...]:
    """What the trade calls an instrument, in any language, its key first."""
    instrument = get(name)
    others = getattr(registry.module(__name__, name), "CALLED", ())
    parts = (instrument.part_name.replace("♭", "b"), *instrument.part_names.values())
    return (name, instrument.name, *parts, *others)


def spoken() -> tuple[str, ...]:
    """All names of instruments, in the form given by `as_said`."""
    return tuple(_spoken()[0])


@cache
def _spoken() -> tuple[dict[str, tuple[str, ...]], dict[str, tuple[str, ...]]]:
    """The instruments by whole names, and by the first words of their part names."""
    whole: dict[str, tuple[str, ...]] = {}
    first: dict[str, tuple[str, ...]] = {}
    for name in names():
        instrument = get(name)
        parts = (instrument.part_name.replace("♭", "b"), *instrument.part_names.values())
        for said in {as_said(words) for words in names_of(name)}:
            whole[said] = (*whole.get(said, ()), name)
        for said in {as_said(part.split()[0]) for part in parts}:
            first[said] = (*first.get(said, ()), name)
    return whole, first
