"""Charts of an instrument, found by file name."""

from __future__ import annotations

from gesturesmith import registry
from gesturesmith.sheets.charts.base import Chart, book, instrument_name, title

__all__ = ["Chart", "book", "get", "instrument_name", "names", "title"]


def names() -> tuple[str, ...]:
    """All kinds of chart, sorted."""
    return registry.names(__name__)


def get(name: str) -> Chart:
    """The chart called `name`; KeyError if there is none."""
    chart: Chart = registry.module(__name__, name).CHART
    return chart
