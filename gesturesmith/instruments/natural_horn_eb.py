"""The natural horn in Eb."""

from __future__ import annotations

from gesturesmith.instruments._natural import crook

INSTRUMENT = crook("natural-horn-eb", "Eb", -5, -9)
