"""How soft: flutter-tonguing."""

from __future__ import annotations

from gesturesmith.exercises.trials._effects import softest

FAMILY = softest("flutter-tongue")
