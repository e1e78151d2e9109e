"""How long: flutter-tonguing."""

from __future__ import annotations

from gesturesmith.exercises.trials._effects import longest

FAMILY = longest("flutter-tongue")
