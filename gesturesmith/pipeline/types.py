"""What the stages are asked for, and what comes out of them."""

from __future__ import annotations

from dataclasses import field
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from gesturesmith.diagnostics import FileReport
from gesturesmith.kinds import Pitches
from gesturesmith.values import frozen, uncounted

if TYPE_CHECKING:  # `check` pays neither for files nor for the writers
    from pathlib import Path

    from gesturesmith.writers import Item


@frozen(kw_only=True)
class NotesOptions:
    """What is wanted of notes pages.

    folders   where each file lies, in the files' order: profiles named by a path are sought from there
    place     the folder of the page, below the output folder
    stem      its name
    name      a pattern for its name in the place of the stem (see `naming`)
    columns   1 | 2
    wording   languages of the standard texts; () for those of the (first) file
    version   a line for the foot of each page, "" for none
    pitches   how the parts name pitches: written | sounding
    draft     what is refused is in the parts as well
    """

    folders: tuple[Path | None, ...] = ()
    place: PurePosixPath = PurePosixPath()
    stem: str = "performance-notes"
    name: str | None = None
    columns: int = 2
    wording: tuple[str, ...] = ()
    version: str = ""
    pitches: Pitches = "written"
    draft: bool = False


_NAMES = uncounted("it names files")
_LATER = uncounted("it says what is made of the music")
_NUMBERS = uncounted("marks get the numbers of a notes page after the music is made")


@frozen(kw_only=True)
class Options:
    """What is wanted of a file. The music of a gesture is kept by the fields that do not say why it is the same
    whatever they are.

    folder      where the file lies: profiles named by a path are sought from there
    stem        the file's name without ending, which its outputs bear
    place       the folder of its outputs, below the output folder
    name        a pattern for the outputs' name in the place of the stem (see `naming`)
    pages       make the page of the file as well as the pictures of its gestures and passages
    only_check  stop after the check
    formats     names of writers
    pitches     how the page names pitches: written | sounding
    only        the one gesture or passage wanted; None for all
    suggest     the one gesture for which suggestions are tried; None for all
    draft       engrave what is refused as well, marked as a draft
    notes       make a notes page of the file too, whose numbers its marks bear
    together    says which files' notes page gives the numbers of its marks, where it is a page of several; else ""
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
    notes: NotesOptions | None = field(default=None, metadata=_NUMBERS)
    together: str = field(default="", metadata=_NUMBERS)


@frozen(kw_only=True)
class SignUsage:
    """How a file uses a sign that another file may use otherwise; all three are words for people."""

    file: str
    sign: str
    way: str


@frozen(kw_only=True)
class CompileResult:
    """What is said of the files that were compiled together, and what there is to deliver.

    reports  one for each file, in the files' order
    names    all the gestures and passages there are, whether wanted or not
    items    pages and snippets; empty where nothing can be engraved
    ways     how the files use what others may use otherwise (see `differences`)
    """

    reports: tuple[FileReport, ...]
    names: tuple[str, ...] = ()
    items: tuple[Item, ...] = ()
    ways: tuple[SignUsage, ...] = ()

    @property
    def report(self) -> FileReport:
        """The report of the one file there is; of several, the first's."""
        return self.reports[0]
