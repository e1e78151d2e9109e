"""A falling row of thirds."""

from gesturesmith.exercises.shapes.base import phrase

SHAPE = phrase("4:2 2:2 | 3:2 1:2 | 2:1 0:1 1:2 | 0:4")
