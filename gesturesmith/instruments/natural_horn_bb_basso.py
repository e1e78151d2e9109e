"""The natural horn in Bb basso."""

from __future__ import annotations

from gesturesmith.instruments._natural import crook

INSTRUMENT = crook("natural-horn-bb-basso", "Bb basso", -8, -14)
