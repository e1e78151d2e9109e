"""Instruments, found by the name of their file."""

from __future__ import annotations

from gesturesmith import registry
from gesturesmith.instruments.base import Instrument


def names() -> tuple[str, ...]:
    """The instruments there are, sorted."""
    return registry.names(__name__)


def get(name: str) -> Instrument:
    """The instrument called `name`; KeyError where there is none."""
    instrument: Instrument = registry.module(__name__, name).INSTRUMENT
    return instrument
