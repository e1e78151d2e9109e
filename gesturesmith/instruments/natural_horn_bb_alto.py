"""The natural horn in Bb alto."""

from __future__ import annotations

from gesturesmith.instruments._natural import crook

INSTRUMENT = crook("natural-horn-bb-alto", "Bb alto", -1, -2)
