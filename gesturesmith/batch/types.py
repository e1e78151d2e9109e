"""The input and output of a batch."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Any

from gesturesmith import writers
from gesturesmith.cache import Store
from gesturesmith.delivery import Blocked
from gesturesmith.diagnostics import FileReport
from gesturesmith.kinds import SandboxMode
from gesturesmith.pinned import NOTHING_PINNED, PinnedNumbers
from gesturesmith.pipeline.types import CompileResult, SignUsage
from gesturesmith.source import Source
from gesturesmith.values import frozen

if TYPE_CHECKING:
    from gesturesmith.lilypond import Failure, LilyPond, LilyPondPool, MissingLilyPond


@frozen(kw_only=True)
class Build:
    """One unit of work: the pages of one file, or a page of many files.

    name      its name in messages
    compile   turns sources and options into items to deliver; a module-level function that reads only
              its arguments and files that it reports (`record_dependency`)
    sources   the files, as they were read
    options   a frozen value whose repr is complete
    formats   names of writers
    kinds     kinds of items it makes, so that the right LilyPonds start early
    """

    name: str
    compile: Callable[[tuple[Source, ...], Any], CompileResult]
    sources: tuple[Source, ...]
    options: Any
    formats: tuple[str, ...]
    kinds: tuple[str, ...] = ("page", "snippet")

    @property
    def engraved(self) -> bool:
        """Whether any of its formats needs LilyPond."""
        return any(writers.get(name).engraved for name in self.formats)


@frozen(kw_only=True)
class OutputRecord:
    """A delivered file: its path below the output folder, SHA-256, and the gestures and passages on it.

    `key` is the cache key of its bytes; `lacks`: what its format has no place for, by name; `stamp`: that of the
    file when it was last found whole, "" if it was not looked at since.
    """

    place: PurePosixPath
    sha256: str
    key: str
    excerpts: tuple[str, ...] = ()
    lacks: tuple[str, ...] = ()
    stamp: str = ""


@frozen(kw_only=True)
class BuildResult:
    """A finished build.

    reports, names, ways, pinned   as in its compile result
    outputs          all files that exist now, whether newly written or not
    written          the newly written ones, sorted
    failures         gestures or pages that LilyPond failed on; their files are missing, the others exist
    blocked          why nothing could be delivered
    lacking          formats that were not made because there is no LilyPond
    unmade           formats that nothing here can be made in, such as a chart as MusicXML
    reads            files read besides the sources
    bug              a bug of ours that ended this build: nothing is known about it
    """

    build: Build
    reports: tuple[FileReport, ...]
    names: tuple[str, ...]
    outputs: tuple[OutputRecord, ...] = ()
    written: tuple[Path, ...] = ()
    failures: tuple[Failure, ...] = ()
    blocked: Blocked | None = None
    lacking: tuple[str, ...] = ()
    unmade: tuple[str, ...] = ()
    reads: tuple[Path, ...] = ()
    ways: tuple[SignUsage, ...] = ()
    pinned: PinnedNumbers = NOTHING_PINNED
    bug: Exception | None = None

    @property
    def whole(self) -> bool:
        """Whether everything was made."""
        return not self.failures and self.blocked is None and not self.lacking and self.bug is None


def _silent(text: str, done: float, whole: float) -> None:
    """Tells nobody."""


@frozen(kw_only=True)
class BatchSetup:
    """How and where a batch is made.

    output    the output folder
    inputs    files that are never overwritten, whatever they contain
    lilypond  the LilyPond, or why there is none
    store     the cache of earlier results
    jobs      how many LilyPonds run at a time
    force     also overwrite files that are not ours
    cluster   the address of a Dask cluster that runs LilyPond instead of this machine
    sandbox   whether its workers run LilyPond in a sandbox: auto | always | never
    pool      LilyPonds of the caller, which outlive the batch; None: of its own
    tell      called with what is being done, and how much of how much (in gestures) LilyPond has done
    """

    output: Path
    inputs: tuple[Path, ...]
    lilypond: LilyPond | MissingLilyPond
    store: Store
    jobs: int = 1
    force: bool = False
    cluster: str | None = None
    sandbox: SandboxMode = "auto"
    pool: LilyPondPool | None = None
    tell: Callable[[str, float, float], None] = _silent
