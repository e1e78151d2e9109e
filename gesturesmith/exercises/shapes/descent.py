"""Down to the fourth below and back."""

from gesturesmith.exercises.shapes.base import phrase

SHAPE = phrase("0:1 -1:1 -2:1 -1:1 | 0:2 -2:2 | -3:1 -2:1 -1:1 -2:1 | 0:4")
