"""A batch: finished builds are looked up, the rest compiled, rendered and delivered one by one."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Generator, Iterator
from contextlib import ExitStack
from dataclasses import replace
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

from gesturesmith import writers
from gesturesmith.batch.record import build_key, item_key, load_record, save_record, save_stamps
from gesturesmith.batch.types import BatchSetup, Build, BuildResult, OutputRecord
from gesturesmith.cache import digest, file_digest, file_stamp
from gesturesmith.delivery import Blocked, deliver
from gesturesmith.dependencies import recording_dependencies
from gesturesmith.diagnostics import FileReport
from gesturesmith.lilypond import Failure, LilyPond, groups
from gesturesmith.pinned import NOTHING_PINNED, PinnedNumbers
from gesturesmith.pipeline.types import SignUsage
from gesturesmith.source import folded
from gesturesmith.values import frozen
from gesturesmith.writers import Binding, Item, Output, Writer

if TYPE_CHECKING:  # a run that finds everything made already does not pay for them
    from gesturesmith.batch.workers import WorkerPool


_PDF = "pdf"


def run(builds: tuple[Build, ...], setup: BatchSetup) -> Generator[BuildResult, None, None]:
    """Make all builds; each is yielded as soon as it is delivered, in order. A bug of ours that ends one
    does not stop the others.

    If the caller stops or is stopped, no LilyPond is left running and no file half written.
    """
    with ExitStack() as stack:
        batch = BatchRun(setup, stack)
        plans = [batch.cached(build) for build in builds]
        ready = []
        for number, (build, plan) in enumerate(zip(builds, plans, strict=True)):
            if plan is None:
                setup.tell(f"{build.name}: checking", number, len(builds))
                try:
                    plan = batch.compiled(build)
                except OSError:
                    raise  # of the machine: the others would fail too
                except Exception as bug:
                    plan = PendingBuild(build=build, reports=(), names=(), bug=bug)
            ready.append(plan)
        del plans
        batch.all_compiled()
        clashes = _clashes(ready)
        for number in range(len(ready)):
            # Delivered files need not stay in memory.
            plan, ready[number] = ready[number], replace(ready[number], files=())
            try:
                done = batch.finished(plan, clashes.get(number))
            except OSError:
                raise
            except Exception as bug:
                done = BuildResult(build=plan.build, reports=plan.reports, names=plan.names, bug=bug)
            yield done
        setup.store.trim()


@frozen(kw_only=True)
class PendingFile:
    """A file of a build. Its bytes are `data`, or come from the pool's `book`; with neither, they
    were made before, with the hash `sha256`, and are in place or in the cache. `stamp`: of the file in place."""

    place: PurePosixPath
    key: str
    excerpts: tuple[str, ...]
    lacks: tuple[str, ...] = ()
    sha256: str = ""
    stamp: str = ""
    data: bytes | None = None
    book: str | None = None
    item: Item | None = None
    writer: Writer | None = None


@frozen(kw_only=True)
class PendingBuild:
    """An unfinished build. `key` is the cache key for its record; "" if that is stored already."""

    build: Build
    reports: tuple[FileReport, ...]
    names: tuple[str, ...]
    ways: tuple[SignUsage, ...] = ()
    pinned: PinnedNumbers = NOTHING_PINNED
    bindings: tuple[Binding, ...] = ()
    files: tuple[PendingFile, ...] = ()
    lacking: tuple[str, ...] = ()
    unmade: tuple[str, ...] = ()
    key: str = ""
    reads: tuple[Path, ...] = ()
    bug: Exception | None = None


class BatchRun:
    """What the builds of a run share."""

    def __init__(self, setup: BatchSetup, stack: ExitStack) -> None:
        self._setup = setup
        self._stack = stack
        self._pool: WorkerPool | None = None
        self._ordered_books: dict[tuple[str, ...], str] = {}
        self._common: set[str] = set()  # books of several builds, whose results are kept
        self._results: dict[str, dict[str, bytes] | Failure] = {}

    def cached(self, build: Build) -> PendingBuild | None:
        """A build that was finished before, if its files are in place or in the cache."""
        setup = self._setup
        key = build_key(build, setup.lilypond)
        if key is not None:
            record = load_record(setup.store, key, build)
            if record is not None:
                files = [
                    PendingFile(
                        place=m.place,
                        key=m.key,
                        excerpts=m.excerpts,
                        lacks=m.lacks,
                        sha256=m.sha256,
                        stamp=m.stamp,
                    )
                    for m in record.outputs
                ]
                there = tuple(f for f in map(self._file, files) if f is not None)
                if len(there) == len(files):
                    save_stamps(setup.store, key, record, {file.place: file.stamp for file in there})
                    return PendingBuild(
                        build=build,
                        reports=record.reports,
                        names=record.names,
                        ways=record.ways,
                        pinned=record.pinned,
                        unmade=record.unmade,
                        files=there,
                        reads=tuple(Path(path) for path, _ in record.reads),
                    )
        # Worth starting before anything is known about the file.
        self._call(build)
        return None

    def compiled(self, build: Build) -> PendingBuild:
        """The build compiled, with its books given to the pool."""
        lilypond = self._setup.lilypond
        with recording_dependencies() as reads:
            outcome = build.compile(build.sources, build.options)
        chosen = [writers.get(name) for name in sorted(set(build.formats))]
        lacking = tuple(w.key for w in chosen if w.engraved) if not isinstance(lilypond, LilyPond) else ()
        files: list[PendingFile] = []
        for item in outcome.items:
            if isinstance(lilypond, LilyPond):
                files += self._engraved(item, [w for w in chosen if w.engraved and w.takes(item)], lilypond)
        for writer in chosen:
            if not writer.engraved:
                excerpts = {item.place: item.excerpts for item in outcome.items}
                for output in writer.outputs(outcome.items, {}):
                    shown = excerpts.get(output.place.with_suffix(""), ())
                    ready = _ready(output.place, _bytes_key(output.data), shown, output.data)
                    files.append(replace(ready, lacks=output.lacks))
        return PendingBuild(
            build=build,
            reports=outcome.reports,
            names=outcome.names,
            ways=outcome.ways,
            pinned=outcome.pinned,
            bindings=outcome.bindings if _PDF in build.formats else (),
            files=tuple(sorted(files, key=lambda f: f.place)),
            lacking=lacking if outcome.items else (),
            unmade=tuple(w.key for w in chosen if outcome.items and not any(map(w.takes, outcome.items))),
            key=build_key(build, lilypond) or "",
            reads=tuple(reads),
        )

    def all_compiled(self) -> None:
        """Call when no more books will be given to the pool."""
        if self._pool is not None:
            self._pool.all_added()

    def finished(self, plan: PendingBuild, clash: Blocked | None) -> BuildResult:
        """The build with all its files, delivered and recorded."""
        setup, build = self._setup, plan.build
        if plan.bug is not None:
            return BuildResult(build=build, reports=(), names=(), bug=plan.bug)
        outputs: list[Output] = []
        made: list[OutputRecord] = []
        failures: dict[str, Failure] = {}
        files = self._found(plan.files) if plan.key else plan.files
        rendered = self._rendered(build, files)
        collected = [self._collected(file, rendered) for file in files]
        for got in self._bound(collected, plan.bindings):
            if isinstance(got, Failure):
                failures.setdefault(got.gesture or "", got)
                continue
            if got.data is not None:
                outputs.append(Output(place=got.place, data=got.data))
            made.append(
                OutputRecord(
                    place=got.place, sha256=got.sha256, key=got.key, excerpts=got.excerpts, lacks=got.lacks
                )
            )
        done = BuildResult(
            build=build,
            reports=plan.reports,
            names=plan.names,
            ways=plan.ways,
            pinned=plan.pinned,
            outputs=tuple(made),
            failures=tuple(failures.values()),
            lacking=plan.lacking,
            unmade=plan.unmade,
            reads=plan.reads,
        )
        inputs = (*setup.inputs, *plan.reads)
        delivered = clash or deliver(outputs, setup.output, inputs=inputs, force=setup.force)
        if isinstance(delivered, Blocked):
            return replace(done, outputs=(), blocked=delivered)
        if plan.key:
            save_record(setup.store, plan.key, done, plan.reads)
        return replace(done, written=delivered.written)

    def _engraved(self, item: Item, chosen: list[Writer], lilypond: LilyPond) -> Iterator[PendingFile]:
        """An item's files in the formats of `chosen`: made before, or ordered from the pool."""
        common = item_key(item, lilypond) if chosen else ""
        files = []
        for writer in chosen:
            key = digest(common, writer.key)
            file = PendingFile(
                place=item.place.with_name(f"{item.place.name}.{writer.key}"),
                key=key,
                excerpts=item.excerpts,
                sha256=self._setup.store.hash_of(key) or "",
                item=item,
                writer=writer,
            )
            files.append(file)
        yield from self._ordered(files, lilypond)

    def _ordered(self, files: list[PendingFile], lilypond: LilyPond) -> Iterator[PendingFile]:
        """The files of one item; those without a hash are ordered from the pool."""
        lacking = {f.writer.key: f for f in files if f.writer is not None and not f.sha256}
        yield from (f for f in files if f.sha256)
        for formats in groups(lilypond, tuple(lacking)):
            item = lacking[formats[0]].item
            assert item is not None
            # The same page may belong to several builds, such as the notes of a work to each of its parts.
            keys = tuple(lacking[kind].key for kind in formats)
            book = self._ordered_books.get(keys)
            if book is None:
                book = self._called().add(formats, item.book, item.excerpts)
                self._ordered_books[keys] = book
            else:
                self._common.add(book)
            yield from (replace(lacking[kind], book=book) for kind in formats)

    def _found(self, files: tuple[PendingFile, ...]) -> tuple[PendingFile, ...]:
        """The files, with earlier ones looked up; any that the cache has lost meanwhile is ordered after all.

        LilyPond is working on the others by now: that is why this comes so late.
        """
        lilypond = self._setup.lilypond
        found: list[PendingFile] = []
        for file in files:
            there = file if file.book or file.data is not None else self._file(file)
            if there is not None:
                found.append(there)
            elif isinstance(lilypond, LilyPond):
                found += self._ordered([replace(file, sha256="")], lilypond)
        self.all_compiled()
        return tuple(found)

    def _file(self, file: PendingFile) -> PendingFile | None:
        """A file made before: in place, or with its bytes from the cache; None if in neither."""
        path = self._setup.output / file.place
        stamp = file_stamp(path)  # before it is read: a later change shows
        if stamp and stamp == file.stamp:
            return file
        if file_digest(path) == file.sha256:
            return replace(file, stamp=stamp)
        data = self._setup.store.get(file.key)
        if data is None or hashlib.sha256(data).hexdigest() != file.sha256:
            return None
        return replace(file, data=data, stamp="")

    def _rendered(self, build: Build, files: tuple[PendingFile, ...]) -> dict[str, dict[str, bytes] | Failure]:
        """What the pool made of the books of a build, or why it failed. Blocks until it is there."""

        def tell(done: float, whole: float) -> None:
            self._setup.tell(f"{build.name}: engraving", done, whole)

        books = dict.fromkeys(file.book for file in files if file.book is not None)
        return {book: self._result(book, tell) for book in books}

    def _result(self, book: str, tell: Callable[[float, float], None]) -> dict[str, bytes] | Failure:
        if book in self._results:
            return self._results[book]
        result = self._called().result(book, tell)
        if book in self._common:
            self._results[book] = result
        return result

    def _collected(self, file: PendingFile, books: dict[str, dict[str, bytes] | Failure]) -> PendingFile | Failure:
        """The file with its bytes, cached if new; or why there is none."""
        if file.book is None or file.item is None or file.writer is None:
            if file.data is not None:
                self._setup.store.put(file.key, file.data)
            return file
        rendered = books[file.book]
        if isinstance(rendered, Failure):
            alone = file.item.excerpts[0] if len(file.item.excerpts) == 1 else None
            return replace(rendered, gesture=rendered.gesture or alone)
        try:
            data = file.writer.finish(file.item, rendered[file.writer.key])
        except ValueError as error:
            return Failure(gesture=file.item.name, summary=str(error))
        self._setup.store.put(file.key, data)
        return replace(_ready(file.place, file.key, file.excerpts, data), item=file.item)

    def _bound(
        self, collected: list[PendingFile | Failure], bindings: tuple[Binding, ...]
    ) -> Iterator[PendingFile | Failure]:
        """The files with the PDFs of each binding as one; none of which a page is missing."""
        apart = {output for binding in bindings for output in binding.outputs}
        there: dict[str, PendingFile] = {}
        for got in collected:
            item = got.item if isinstance(got, PendingFile) and got.place.suffix == f".{_PDF}" else None
            if isinstance(got, PendingFile) and item is not None and item.output in apart:
                there[item.output] = got
            else:
                yield got
        for binding in bindings:
            pages = [there[output] for output in binding.outputs if output in there]
            if len(pages) == len(binding.outputs):
                yield self._as_one(binding, pages)

    def _as_one(self, binding: Binding, pages: list[PendingFile]) -> PendingFile | Failure:
        from gesturesmith.writers import bound

        place = binding.place.with_name(f"{binding.place.name}.{_PDF}")
        try:
            data = bound(binding, [self._data(page) for page in pages])
        except ValueError as error:
            return Failure(gesture=None, summary=str(error))
        ready = _ready(place, _bytes_key(data), pages[-1].excerpts, data)  # the music comes last
        self._setup.store.put(ready.key, data)
        return ready

    def _data(self, file: PendingFile) -> bytes:
        """The bytes of a file, which may be in place from an earlier run."""
        return file.data if file.data is not None else (self._setup.output / file.place).read_bytes()

    def _call(self, build: Build) -> None:
        """Make the pool; its first LilyPonds start at once, before their documents are known."""
        if self._pool is None and isinstance(self._setup.lilypond, LilyPond):
            from gesturesmith.batch.executors import worker_pool

            early = _early(build, self._setup.lilypond)
            self._pool = self._stack.enter_context(worker_pool(self._setup, self._setup.lilypond, early))

    def _called(self) -> WorkerPool:
        assert self._pool is not None  # a build that uses it was not cached
        return self._pool


def _early(build: Build, lilypond: LilyPond) -> tuple[tuple[str, ...], ...]:
    """The formats for which a build needs a LilyPond in any case."""
    chosen = [writers.get(name) for name in sorted(set(build.formats))]
    wanted = [tuple(w.key for w in chosen if w.engraved and kind in w.kinds) for kind in build.kinds]
    return tuple(dict.fromkeys(group for formats in wanted for group in groups(lilypond, formats)))


def _ready(place: PurePosixPath, key: str, excerpts: tuple[str, ...], data: bytes) -> PendingFile:
    return PendingFile(place=place, key=key, excerpts=excerpts, sha256=hashlib.sha256(data).hexdigest(), data=data)


def _bytes_key(data: bytes) -> str:
    """The cache key of a file that costs nothing to make: its own bytes."""
    return digest("bytes", data)


def _clashes(plans: list[PendingBuild]) -> dict[int, Blocked]:
    """The builds, by number, that would write the same file; case and the encoding of accents tell no files apart
    on some systems."""
    first: dict[str, tuple[int, PurePosixPath]] = {}
    found: dict[int, Blocked] = {}
    for number, plan in enumerate(plans):
        for file in plan.files:
            if file.item is not None and file.item.kind == "enclosed":
                continue
            other, place = first.setdefault(folded(str(file.place)), (number, file.place))
            if other != number:
                names = f"{plans[other].build.name} and {plan.build.name}"
                why = Blocked(
                    f"{names} would both be written to {place}: make them one after the other, into different "
                    "folders (-o), or under names of their own (--name)"
                )
                found.setdefault(other, why)
                found.setdefault(number, why)
    return found
