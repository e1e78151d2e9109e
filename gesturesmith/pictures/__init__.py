"""Pictures of what a gesture asks and what the instrument can do, as SVG."""

from gesturesmith.pictures.sketch import sketch

__all__ = ["sketch"]
