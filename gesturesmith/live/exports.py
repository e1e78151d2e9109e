"""Files of what is written in the page, made as the command makes them."""

from __future__ import annotations

import io
import tempfile
import zipfile
from pathlib import Path, PurePosixPath

from gesturesmith import batch, paths, writers
from gesturesmith.cache import Store
from gesturesmith.lilypond import LilyPond, MissingLilyPond
from gesturesmith.pipeline import Options
from gesturesmith.pipeline.text import compile_file
from gesturesmith.source import Source
from gesturesmith.values import frozen

_TYPES = {
    ".mid": "audio/midi",
    ".musicxml": "application/vnd.recordare.musicxml+xml",
    ".mxl": "application/vnd.recordare.musicxml",
    ".pdf": "application/pdf",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".wav": "audio/wav",
}
_ZIPPED = (1980, 1, 1, 0, 0, 0)  # the same files give the same archive


@frozen(kw_only=True)
class ExportedFile:
    """A file to hand out, several as an archive; `why` instead, if there is none."""

    name: str = ""
    media_type: str = ""
    data: bytes = b""
    why: str = ""


def export(
    source: Source,
    *,
    folder: Path,
    stem: str,
    key: str,
    only: str | None,
    draft: bool,
    lilypond: LilyPond | MissingLilyPond,
    store: Store,
) -> ExportedFile:
    """The files of a text, or of one gesture or passage, in one format.

    key     name of a writer
    only    the gesture or passage; None for everything: the page if the format has one, or score and parts
    draft   also what is refused, marked as a draft
    """
    writer = writers.get(key)
    if writer.engraved and isinstance(lilypond, MissingLilyPond):
        return ExportedFile(why=lilypond.reason)
    options = Options(folder=folder, stem=stem, only=only, draft=draft, formats=(key,), suggest="")
    build = batch.Build(name=source.name, compile=compile_file, sources=(source,), options=options, formats=(key,))
    with tempfile.TemporaryDirectory(prefix="gesturesmith-", dir=paths.temporary()) as output:
        setup = batch.BatchSetup(output=Path(output), inputs=(), lilypond=lilypond, store=store, jobs=1)
        (done,) = batch.run((build,), setup)
        if done.bug is not None:
            raise done.bug
        files = {made.place: (Path(output) / made.place).read_bytes() for made in done.outputs}
    if not files:
        return ExportedFile(why=_reason(done, only))
    if only is None and "page" in writer.kinds:
        # A score has its parts in a folder, and their pictures in folders below.
        deep = 2 if any(said.part is not None for said in done.reports[0].passages) else 1
        pages = {place: data for place, data in files.items() if len(place.parts) <= deep}
        files = pages or files
    if len(files) == 1:
        ((place, data),) = files.items()
        return ExportedFile(name=place.name, media_type=_media_type(place), data=data)
    return ExportedFile(name=f"{only or stem}-{key}.zip", media_type="application/zip", data=_archive(files))


def _reason(done: batch.BuildResult, only: str | None) -> str:
    """Why there is no file."""
    if done.blocked is not None:
        return done.blocked.reason
    if done.failures:
        return done.failures[0].summary
    (report,) = done.reports
    if report.errors:
        return f"line {report.errors[0].span.line}: {report.errors[0].message}"
    if report.refused:
        return "nothing is left: what is not playable as written is only exported as a draft"
    return "there is nothing in it yet that this format could hold"


def _archive(files: dict[PurePosixPath, bytes]) -> bytes:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as archive:
        for place, data in sorted(files.items()):
            archive.writestr(zipfile.ZipInfo(str(place), _ZIPPED), data, zipfile.ZIP_DEFLATED)
    return made.getvalue()


def _media_type(place: PurePosixPath) -> str:
    return _TYPES.get(place.suffix, "application/octet-stream")
