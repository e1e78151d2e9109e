"""The options and results of the stages."""

from __future__ import annotations

from dataclasses import field
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from gesturesmith.diagnostics import FileReport
from gesturesmith.kinds import Pitches
from gesturesmith.model.looks import AS_WRITTEN, PageLook
from gesturesmith.pinned import NOTHING_PINNED, PinnedNumbers
from gesturesmith.values import frozen, uncounted

if TYPE_CHECKING:  # `check` needs neither files nor writers
    from pathlib import Path

    from gesturesmith.writers import Binding, Item


@frozen(kw_only=True)
class NotesOptions:
    """The notes pages to make.

    folders   the folder of each file, in the files' order: paths of profiles are relative to it
    place     the folder of the page, below the output folder
    stem      its name
    name      a pattern for its name instead of the stem (see `naming`)
    columns   1 | 2
    look      what replaces the settings of the files; languages and paper are those of the first
    version   a line for the foot of each page, "" for none
    pitches   pitches in the parts: written | sounding
    draft     whether the parts contain refused gestures too
    pinned    numbers that stay as they were delivered
    """

    folders: tuple[Path | None, ...] = ()
    place: PurePosixPath = PurePosixPath()
    stem: str = "performance-notes"
    name: str | None = None
    columns: int = 2
    look: PageLook = AS_WRITTEN
    version: str = ""
    pitches: Pitches = "written"
    draft: bool = False
    pinned: PinnedNumbers = NOTHING_PINNED


_NAMES = uncounted("it names files")
_LATER = uncounted("it says what is made of the music")
_NUMBERS = uncounted("marks get the numbers of a notes page after the music is made")


@frozen(kw_only=True)
class Options:
    """The options for a file. The cache key of a gesture's music has every field that does not say why it makes no
    difference.

    folder      the folder of the file: paths of profiles are relative to it
    stem        the file's name without ending, also that of its outputs
    place       the folder of its outputs, below the output folder
    name        a pattern for the outputs' name instead of the stem (see `naming`)
    pages       make the page of the file as well as the pictures of its gestures and passages
    only_check  stop after the check
    formats     names of writers
    pitches     pitches on the page: written | sounding
    only        the one gesture or passage wanted; None for all
    suggest     the one gesture for which suggestions are tried; None for all
    draft       also engrave what is refused, marked as a draft
    look        replaces settings of the page
    cues        parts have cues: what others play before an entry after a long rest
    notes       also make a notes page of the file, whose numbers its marks have
    together    identifies the files of a shared notes page that gives the numbers of its marks; else ""
    pictures    make pictures of gestures and passages
    parts       of a file with several parts, those wanted, and "score"; () for all
    bind        notes and music are delivered as one PDF
    """

    folder: Path | None = field(default=None, metadata=uncounted("what is read there is kept with its hash"))
    stem: str = field(default="untitled", metadata=_NAMES)
    place: PurePosixPath = field(default=PurePosixPath(), metadata=_NAMES)
    name: str | None = field(default=None, metadata=_NAMES)
    pages: bool = field(default=True, metadata=_LATER)
    only_check: bool = field(default=False, metadata=_LATER)
    formats: tuple[str, ...] = field(default=("pdf",), metadata=_LATER)
    pitches: Pitches = "written"
    only: str | None = field(default=None, metadata=_LATER)
    suggest: str | None = field(default=None, metadata=_LATER)
    draft: bool = False
    look: PageLook = AS_WRITTEN
    cues: bool = field(default=False, metadata=_LATER)
    notes: NotesOptions | None = field(default=None, metadata=_NUMBERS)
    together: str = field(default="", metadata=_NUMBERS)
    pictures: bool = field(default=True, metadata=_LATER)
    parts: tuple[str, ...] = field(default=(), metadata=_LATER)
    bind: bool = field(default=False, metadata=_LATER)

    @property
    def reads_ly(self) -> bool:
        """Whether any of the formats is made from LilyPond text."""
        from gesturesmith import writers

        return any(writers.get(name).reads_ly for name in self.formats)


@frozen(kw_only=True)
class SignUsage:
    """How a file uses a sign that another file may use differently; all three are texts for people."""

    file: str
    sign: str
    way: str


@frozen(kw_only=True)
class CompileResult:
    """The reports on files compiled together, and the items to deliver.

    reports  one for each file, in the files' order
    names    all gestures and passages, whether wanted or not
    items    pages and snippets; empty if nothing can be engraved
    ways     how the files use signs (see `differences`)
    pinned   the numbers of the notes page made, as they are kept for the next delivery
    bindings   pages to be delivered as one PDF
    """

    reports: tuple[FileReport, ...]
    names: tuple[str, ...] = ()
    items: tuple[Item, ...] = ()
    ways: tuple[SignUsage, ...] = ()
    pinned: PinnedNumbers = NOTHING_PINNED
    bindings: tuple[Binding, ...] = ()

    @property
    def report(self) -> FileReport:
        """The report on the only file, or on the first of several."""
        return self.reports[0]
