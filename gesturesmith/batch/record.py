"""The cached record of a finished build: its reports and which files it made."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import replace
from functools import cache
from pathlib import Path, PurePosixPath

from gesturesmith import evidence
from gesturesmith.batch.types import Build, BuildResult, OutputRecord
from gesturesmith.cache import Store, file_digest, result_key, value_format
from gesturesmith.diagnostics import FileReport, types
from gesturesmith.lilypond import LilyPond, MissingLilyPond
from gesturesmith.pinned import PinnedNumbers
from gesturesmith.pipeline.types import SignUsage
from gesturesmith.source import Source
from gesturesmith.values import counted, frozen
from gesturesmith.writers import Item


@frozen(kw_only=True)
class BuildRecord:
    """A build's reports (without sources, which the caller has), names, sign usages, numbers, files and
    dependencies; the formats that nothing in it can be made in."""

    reports: tuple[FileReport, ...]
    names: tuple[str, ...]
    outputs: tuple[OutputRecord, ...]
    ways: tuple[SignUsage, ...]
    pinned: PinnedNumbers
    unmade: tuple[str, ...]
    reads: tuple[tuple[str, str], ...]


_FORM = value_format((BuildRecord, OutputRecord, SignUsage, PinnedNumbers), (types, evidence))


@cache
def identity(lilypond: LilyPond) -> str:
    """What identifies a LilyPond for its output: which program it is, and whether it was replaced."""
    stat = lilypond.path.stat()
    return repr((str(lilypond.path), lilypond.version, lilypond.cairo, stat.st_size, stat.st_mtime_ns))


def build_key(build: Build, lilypond: LilyPond | MissingLilyPond) -> str | None:
    """The cache key of a build's record; None if it needs a LilyPond that is missing."""
    by_whom = ""
    if build.engraved:
        if not isinstance(lilypond, LilyPond):
            return None
        by_whom = identity(lilypond)
    function = getattr(build.compile, "func", build.compile)
    return result_key(
        "work",
        by_whom,
        f"{function.__module__}.{function.__qualname__}",
        repr(build.options),
        ",".join(sorted(build.formats)),
        *(part for source in build.sources for part in (source.name, source.text)),
    )


def item_key(item: Item, lilypond: LilyPond) -> str:
    """The cache key of an item's files, to which the format is added; its name within a run does not matter."""
    from gesturesmith.batch.render import renamed

    return result_key("file", identity(lilypond), renamed(item.book, "x"), *counted(item))


def load_record(store: Store, key: str, build: Build) -> BuildRecord | None:
    """The record of a build, if all its dependencies are unchanged."""
    data = store.get(key)
    if data is None:
        return None
    try:
        record = _FORM.loads(data)
    except ValueError:
        return None
    if not isinstance(record, BuildRecord) or len(record.reports) != len(build.sources):
        return None
    if any(file_digest(Path(path)) != was for path, was in record.reads):
        return None
    sourced = tuple(replace(r, source=s) for r, s in zip(record.reports, build.sources, strict=True))
    return replace(record, reports=sourced)


def save_record(store: Store, key: str, done: BuildResult, reads: tuple[Path, ...]) -> None:
    """Store a record, unless something in it failed."""
    read = tuple((str(path.absolute()), file_digest(path) or "") for path in reads)
    if not done.whole or not all(r.readable for r in done.reports) or not all(was for _, was in read):
        return
    record = BuildRecord(
        reports=tuple(_brief(report) for report in done.reports),
        names=done.names,
        outputs=done.outputs,
        ways=done.ways,
        pinned=done.pinned,
        unmade=done.unmade,
        reads=read,
    )
    with suppress(TypeError):  # a value that cannot be stored: the build is repeated next time, nothing is lost
        store.put(key, _FORM.dumps(record))


def save_stamps(store: Store, key: str, record: BuildRecord, stamps: Mapping[PurePosixPath, str]) -> None:
    """Store a record again with the stamps of its files, so that the next run need not read them."""
    outputs = tuple(replace(made, stamp=stamps.get(made.place, "")) for made in record.outputs)
    if outputs != record.outputs:
        reports = tuple(_brief(report) for report in record.reports)
        store.put(key, _FORM.dumps(replace(record, reports=reports, outputs=outputs)))


def _brief(report: FileReport) -> FileReport:
    """Without the text, which is known when the record is read, and without what no output contains."""
    return replace(
        report,
        source=Source("", ""),
        gestures=tuple(replace(g, realisation=None) for g in report.gestures),
    )
