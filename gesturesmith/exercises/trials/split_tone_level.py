"""How soft: split tones."""

from __future__ import annotations

from gesturesmith.exercises.trials._effects import softest

FAMILY = softest("split-tone")
