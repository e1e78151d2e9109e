"""Charts of an instrument."""

from __future__ import annotations

from pathlib import PurePosixPath

from gesturesmith.model.piece import Settings
from gesturesmith.pipeline.naming import of_instrument
from gesturesmith.pipeline.types import CompileResult
from gesturesmith.sheets import charts, document
from gesturesmith.source import Source
from gesturesmith.values import frozen
from gesturesmith.writers import Item


@frozen(kw_only=True)
class ChartOptions:
    """The charts to make: their kinds; the settings give instrument, wording and paper.

    name    a pattern for the file names instead of the instrument's name (see `naming`)
    """

    kinds: tuple[str, ...]
    settings: Settings
    name: str | None = None


def compile_chart(sources: tuple[Source, ...], options: ChartOptions) -> CompileResult:
    """A page, and the same as a cropped picture, for each kind. Reads no source."""
    items = []
    name_of_instrument = charts.instrument_name(options.settings)
    for kind in options.kinds:
        chart = charts.get(kind)
        name = f"{of_instrument(options.name, options.settings)}-{kind}"
        for picture in (False, True):
            output = f"{kind.replace('-', '')}{'picture' if picture else ''}"
            book = charts.book(chart, options.settings, output=output, picture=picture)
            items.append(
                Item(
                    output=output,
                    kind="picture" if picture else "page",
                    place=PurePosixPath(name),
                    name=name,
                    title=f"{charts.title(chart, options.settings)}: {name_of_instrument}",
                    excerpts=(name,),
                    book=book,
                    document=document((book,)),
                )
            )
    return CompileResult(reports=(), names=tuple(options.kinds), items=tuple(items))
