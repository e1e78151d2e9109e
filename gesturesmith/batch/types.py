"""What a batch is given and what it gives."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Any

from gesturesmith.cache import Store
from gesturesmith.delivery import Blocked
from gesturesmith.diagnostics import FileReport
from gesturesmith.pipeline.types import CompileResult, SignUsage
from gesturesmith.source import Source
from gesturesmith.values import frozen

if TYPE_CHECKING:
    from gesturesmith.lilypond import Failure, LilyPond, MissingLilyPond


@frozen(kw_only=True)
class Build:
    """One thing that is made by itself: the pages of one file, or a page of many files.

    name      what messages call it
    compile   from sources and options to what is delivered; a function of a module, which reads nothing but
              its arguments and files that it notes (`reads`)
    sources   the files, as they were read
    options   a frozen value whose repr says all of it
    formats   names of writers
    kinds     kinds of items it gives, so that the right LilyPonds start early
    """

    name: str
    compile: Callable[[tuple[Source, ...], Any], CompileResult]
    sources: tuple[Source, ...]
    options: Any
    formats: tuple[str, ...]
    kinds: tuple[str, ...] = ("page", "snippet")


@frozen(kw_only=True)
class OutputRecord:
    """A file that is delivered: its place below the output folder, SHA-256, and the gestures and passages on it.

    `key` is where the store keeps its bytes.
    """

    place: PurePosixPath
    sha256: str
    key: str
    excerpts: tuple[str, ...] = ()


@frozen(kw_only=True)
class BuildResult:
    """A work that is done with.

    reports, names, ways   as its outcome has them
    outputs          all files that are there now, whether written or not
    written          those that were written, sorted
    failures         gestures, or pages, that LilyPond could not set; their files are missing, others are there
    blocked          why nothing could be delivered
    lacking          formats that were not made for want of a LilyPond
    reads            files that were read beside the sources
    fault            of our own, that ended this work: nothing is known of it
    """

    build: Build
    reports: tuple[FileReport, ...]
    names: tuple[str, ...]
    outputs: tuple[OutputRecord, ...] = ()
    written: tuple[Path, ...] = ()
    failures: tuple[Failure, ...] = ()
    blocked: Blocked | None = None
    lacking: tuple[str, ...] = ()
    reads: tuple[Path, ...] = ()
    ways: tuple[SignUsage, ...] = ()
    fault: Exception | None = None

    @property
    def whole(self) -> bool:
        """Whether all that can be made is there."""
        return not self.failures and self.blocked is None and not self.lacking and self.fault is None


def _silent(text: str, done: float, whole: float) -> None:
    """Tells nobody."""


@frozen(kw_only=True)
class BatchSetup:
    """Where and how a batch is made.

    output    the folder for what is made
    inputs    files that are never written over, whatever they hold
    lilypond  the LilyPond, or why there is none
    store     what is made already
    jobs      so many LilyPonds at a time
    force     write over files that are not ours as well
    cluster   the address of a Dask cluster that runs LilyPond in the place of this machine
    sandbox   whether its workers run LilyPond in a sandbox: auto | always | never
    tell      is told what is being done, and how much of how much (in gestures) LilyPond has done
    """

    output: Path
    inputs: tuple[Path, ...]
    lilypond: LilyPond | MissingLilyPond
    store: Store
    jobs: int = 1
    force: bool = False
    cluster: str | None = None
    sandbox: str = "auto"
    tell: Callable[[str, float, float], None] = _silent
