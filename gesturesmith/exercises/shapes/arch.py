"""Up to the fifth and back."""

from gesturesmith.exercises.shapes.base import phrase

SHAPE = phrase("0:1 1:1 2:1 3:1 | 4:2 3:2 | 2:1 1:1 2:1 1:1 | 0:4")
