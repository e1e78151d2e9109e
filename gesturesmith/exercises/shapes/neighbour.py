"""A note and its neighbours, above and below."""

from gesturesmith.exercises.shapes.base import phrase

SHAPE = phrase("0:1 1:1 0:2 | 0:1 -1:1 0:2 | 0:1 1:1 0:1 -1:1 | 0:4")
