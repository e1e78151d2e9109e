"""Charts of an instrument, found by the name of their file."""

from __future__ import annotations

from gesturesmith import registry
from gesturesmith.sheets.charts.base import Chart, book, title

__all__ = ["Chart", "book", "get", "names", "title"]


def names() -> tuple[str, ...]:
    """The kinds of chart there are, sorted."""
    return registry.names(__name__)


def get(name: str) -> Chart:
    """The chart called `name`; KeyError where there is none."""
    chart: Chart = registry.module(__name__, name).CHART
    return chart
