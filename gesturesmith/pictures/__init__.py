"""Pictures of what a gesture or passage asks and what instrument and player can do, as SVG."""

from gesturesmith.pictures.sketch import sketch
from gesturesmith.pictures.strain import strain

__all__ = ["sketch", "strain"]
