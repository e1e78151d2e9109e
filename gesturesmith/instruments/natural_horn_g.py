"""The natural horn in G."""

from __future__ import annotations

from gesturesmith.instruments._natural import crook

INSTRUMENT = crook("natural-horn-g", "G", -3, -5, de="G", fr="sol", it="sol")
