"""Gesturesmith as a library: read, check, suggest, engrave and render from a program.

Each function takes the text of a gesture file as a `str`, a file as a path (`pathlib.Path` or anything else with
`__fspath__`; a `str` is never a path), or a `Source`, which is a text with a name. Each returns a frozen value, the
same for the same input, and keeps no state between calls.

Problems with a text are part of the returned value: errors, findings, failures. Only misuse raises: TypeError for a
wrong type, ValueError for an unknown option or name, OSError (FileNotFoundError, PermissionError, ...) if a file
cannot be opened, and `LilyPondNotFound` if LilyPond is needed but missing.

The stages are imported when needed: `check` needs neither Abjad nor LilyPond.
"""

from __future__ import annotations

import os
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path, PurePath
from typing import TYPE_CHECKING, Any, get_args

from gesturesmith.diagnostics import Demand as Demand
from gesturesmith.diagnostics import Edit as Edit
from gesturesmith.diagnostics import ExerciseReport as ExerciseReport
from gesturesmith.diagnostics import FileReport as FileReport
from gesturesmith.diagnostics import Finding as Finding
from gesturesmith.diagnostics import GestureReport as GestureReport
from gesturesmith.diagnostics import Number as Number
from gesturesmith.diagnostics import PartName as PartName
from gesturesmith.diagnostics import PassageReport as PassageReport
from gesturesmith.diagnostics import PointReport as PointReport
from gesturesmith.diagnostics import ReadError as ReadError
from gesturesmith.diagnostics import RealisationReport as RealisationReport
from gesturesmith.diagnostics import Report
from gesturesmith.diagnostics import Severity as Severity
from gesturesmith.diagnostics import Suggestion as Suggestion
from gesturesmith.diagnostics import Verdict as Verdict
from gesturesmith.kinds import Pitches
from gesturesmith.source import Source as Source
from gesturesmith.source import Span as Span
from gesturesmith.source import clean, folded
from gesturesmith.textfile import UnreadableFile, bytes_of, text_of
from gesturesmith.values import frozen

if TYPE_CHECKING:
    from gesturesmith.lilypond import Failure as Failure
    from gesturesmith.model.reading import Reading as Reading
    from gesturesmith.pipeline import Options
    from gesturesmith.rules.base import Case, PassageCase
    from gesturesmith.score.music import Music
    from gesturesmith.writers import Output as Output

type Text = str | os.PathLike[str] | Source
type Folder = str | os.PathLike[str]

SCHEMAS = ("report", "list", "manifest")
_UNNAMED = "text"  # name of an unnamed text in messages


class LilyPondNotFound(RuntimeError):  # noqa: N818  # named like FileNotFoundError
    """LilyPond is needed, and none is usable; the message says how to get one.

    >>> issubclass(gesturesmith.LilyPondNotFound, RuntimeError)
    True
    """


@frozen(kw_only=True)
class Snippet:
    """One gesture or passage, checked and engraved. A notebook shows it as a picture.

    report   verdict, findings and how it is played
    case     the gesture with its realisation; of a passage, those of all it plays
    music    the engraved music; None if it has a mistake, or is refused and no draft was asked for

    >>> (call,) = gesturesmith.engrave(text).snippets
    >>> call
    <gesture call: playable>
    >>> call.music.description
    'call: Half-valve, 4 beats. About G4 at 0, along a wavy line to about D5 at 2.'
    """

    report: GestureReport | PassageReport
    case: Case | PassageCase
    music: Music | None
    source: Source
    options: Options

    @property
    def name(self) -> str:
        return self.report.name

    def __repr__(self) -> str:
        kind = "gesture" if isinstance(self.report, GestureReport) else "passage"
        return f"<{kind} {clean(self.name)}: {self.report.verdict.words}>"

    def _repr_svg_(self) -> str | None:
        """Its picture; None if there is no music, or no LilyPond."""
        if self.music is None:
            return None
        try:
            made = _rendered(self.source, replace(self.options, only=self.name), ("svg",))
        except (LilyPondNotFound, OSError):
            return None
        part = self.report.part
        own = [f for f in made.files if part is None or f.place.parent.name == part.name]
        svg = own[0].data.decode() if own else ""
        return svg[svg.find("<svg") :] or None


@frozen(kw_only=True)
class Engraving:
    """The engraved music of a text.

    report     the report on it
    snippets   its gestures, then its passages, in file order: all that could be read

    >>> [snippet.name for snippet in gesturesmith.engrave(text).snippets]
    ['call']
    """

    report: FileReport
    snippets: tuple[Snippet, ...]

    def __repr__(self) -> str:
        return (
            f"<engraving of {clean(self.report.source.name)}: {', '.join(map(repr, self.snippets)) or 'nothing'}>"
        )


@frozen(kw_only=True)
class Rendering:
    """The files made of a text.

    report     the report on it
    files      names below a folder of your choice, and bytes; sorted by name
    failures   what LilyPond could not engrave; the other files are still made

    >>> made = gesturesmith.render(text, "ily")
    >>> [str(file.place) for file in made.files]
    ['text/call.ily', 'text/gesturesmith.ily']
    """

    report: FileReport
    files: tuple[Output, ...]
    failures: tuple[Failure, ...] = ()

    def __repr__(self) -> str:
        there = ", ".join(clean(str(file.place)) for file in self.files) or "nothing"
        failed = f"; {len(self.failures)} failed" if self.failures else ""
        return f"<rendering of {clean(self.report.source.name)}: {there}{failed}>"


def read(text: Text, *, profiles: Folder | None = None) -> Reading:
    """Read a text: its settings, gestures, passages and exercises, with every default filled in.

    text       a gesture file's text, its path, or a `Source`; at most 2 MB
    profiles   the folder in and below which the text may name profiles of instruments and players; by default that
               of the file, and for a text the working folder

    Times are beats, pitches sounding cents above C-1, both exact fractions. Where a text has parts, `parts` has a
    reading of each, and `piece` is None.

    >>> piece = gesturesmith.read(text).piece
    >>> [(point.at, point.sounding_cents) for point in piece.gestures[0].points]
    [(Fraction(0, 1), Fraction(6000, 1)), (Fraction(2, 1), Fraction(6700, 1))]
    """
    from gesturesmith.model import reading

    found, folder = _given(text, profiles)
    if isinstance(found, UnreadableFile):
        nothing = reading.read(Source(found.name, ""))
        return replace(nothing, errors=found.report.errors)
    return reading.read(found, folder=folder)


def check(text: Text, *, profiles: Folder | None = None) -> FileReport:
    """Check whether, and how, each gesture of a text can be played. A notebook shows the report as a table.

    Like `gesturesmith check`, but without trying any fixes: that takes longer, and `suggest` does it. Arguments as
    for `read`.

    >>> (beyond,) = gesturesmith.check(high).gestures
    >>> beyond.verdict.words, [finding.rule for finding in beyond.findings]
    ('not as written', ['outside-range'])
    """
    return _checked(text, profiles, suggestions=False)


def suggest(text: Text, *, only: str | None = None, profiles: Folder | None = None) -> FileReport:
    """Suggest what would work instead of what is refused: the report, with `suggestions` on its findings.

    Like `gesturesmith check` and `suggest`. Each suggestion has itself been checked.

    only       the one gesture for which suggestions are tried; ValueError if the text has none of that name
    profiles   as for `read`

    >>> (beyond,) = gesturesmith.suggest(high).gestures
    >>> for suggestion in beyond.findings[0].suggestions:
    ...     print(suggestion.in_words, "is", suggestion.verdict.words)
    contour: G5 is playable
    contour: D6 is with care
    contour: C6 is playable
    """
    report = _checked(text, profiles, only=only)
    _there(only, report, [g.name for g in report.gestures])
    return report


def engrave(
    text: Text,
    *,
    only: str | None = None,
    pitches: Pitches = "written",
    draft: bool = False,
    profiles: Folder | None = None,
) -> Engraving:
    """Engrave the gestures and passages of a text: the content of the page, as values.

    only      the one gesture or passage wanted; ValueError if the text has none of that name
    pitches   "written" as in a part, "sounding" as in a concert score
    draft     also engrave what is not as written, with its findings
    profiles  as for `read`

    Needs Abjad but not LilyPond, which only runs when a picture is shown.

    >>> gesturesmith.engrave(text, pitches="sounding").snippets[0].music.pitches
    'sounding'
    """
    from gesturesmith.checker import check_text
    from gesturesmith.pipeline.music import engraved

    found, options = _asked(text, profiles, only, pitches, draft)
    if isinstance(found, UnreadableFile):
        return Engraving(report=found.report, snippets=())
    checked = check_text(found, folder=options.folder, suggestions=False)
    report = checked.report
    everything: tuple[GestureReport | PassageReport, ...] = (*report.gestures, *report.passages)
    _there(only, report, _names(report))
    musics: dict[tuple[PartName | None, str], Music] = {}
    cases: dict[tuple[PartName | None, str], Case | PassageCase] = {}
    for own in checked.parts or (checked,):
        part = own.part
        cases |= {(part, name): case for name, case in own.cases.items()}
        cases |= {(part, name): case for name, case in own.passage_cases.items()}
        if own.reading.piece is not None and report.usable:
            made = engraved(own, own.report, own.reading.piece.settings, options, None)
            musics |= {(part, one.music.name): one.music for one in made}
    snippets = tuple(
        Snippet(
            report=said,
            case=cases[said.part, said.name],
            music=musics.get((said.part, said.name)),
            source=found,
            options=options,
        )
        for said in everything
        if only is None or folded(said.name) == folded(only)
    )
    return Engraving(report=report, snippets=snippets)


def render(
    text: Text,
    formats: str | Iterable[str] = ("svg",),
    *,
    only: str | None = None,
    pitches: Pitches = "written",
    draft: bool = False,
    profiles: Folder | None = None,
    lilypond: Folder | None = None,
    jobs: int = 1,
) -> Rendering:
    """Make the files of a text, as bytes.

    formats    "svg", "pdf", "png", "ily", "ly", "musicxml", "mxl", or several, as for `gesturesmith engrave --as`
    only       the one gesture or passage wanted; ValueError if the text has none of that name
    pitches, draft, profiles   as for `engrave`
    lilypond   the LilyPond to use; by default that of `GESTURESMITH_LILYPOND`, the wheel or PATH
    jobs       how many LilyPonds run at a time

    Raises LilyPondNotFound if LilyPond is needed but missing; the last four do not need it.

    >>> made = gesturesmith.render(text, "svg")
    >>> made.files[0].data[:5]
    b'<?xml'
    """
    from gesturesmith import writers

    wanted = (formats,) if isinstance(formats, str) else tuple(formats)
    unknown = [name for name in wanted if name not in writers.names()]
    if unknown or not wanted:
        wrong = f"unknown format {unknown[0]!r}" if unknown else "no format"
        raise ValueError(f"{wrong} (choose {', '.join(writers.names())})")
    found, options = _asked(text, profiles, only, pitches, draft)
    if isinstance(found, UnreadableFile):
        return Rendering(report=found.report, files=())
    made = _rendered(found, replace(options, only=only), wanted, lilypond=lilypond, jobs=jobs)
    if only is not None:
        _there(only, made.report, _names(made.report))
    return made


def to_text(*reports: FileReport) -> str:
    """Reports as text, as printed by `gesturesmith check`, without colour.

    >>> print(gesturesmith.to_text(gesturesmith.check(text)), end="")
    text: 1 gesture: 1 playable
      difficulty 41 of 100 (technique, height, strain)
    """
    from gesturesmith.diagnostics import render_text

    return render_text(Report(files=reports), colour=False)


def to_json(*reports: FileReport) -> str:
    """Reports as one JSON object, as printed by `gesturesmith check --json`; `schema("report")` is its schema.

    >>> import json
    >>> json.loads(gesturesmith.to_json(gesturesmith.check(text)))["files"][0]["gestures"][0]["name"]
    'call'
    """
    from gesturesmith.diagnostics import render_json

    return render_json(Report(files=reports))


def schema(name: str = "report") -> str:
    """The JSON Schema (2020-12) of something the commands print for programs, as JSON.

    name   "report" for `check --json`, `suggest --json` and `to_json`; "list" for `list --json`; "manifest" for
           what `--manifest FILE` writes; ValueError for any other

    >>> import json
    >>> json.loads(gesturesmith.schema("list"))["title"]
    'List'
    """
    from gesturesmith import paths

    if name not in SCHEMAS:
        raise ValueError(f"unknown schema {name!r} (choose {', '.join(SCHEMAS)})")
    return (paths.schemas() / f"{name}.json").read_text("utf-8")


# --- arguments -------------------------------------------------------------------------------------------


def _given(text: Text, profiles: Folder | None) -> tuple[Source | UnreadableFile, Path | None]:
    """A text, or why it is unreadable, and the folder in which it may name profiles; None for the working
    folder."""
    folder = None if profiles is None else Path(profiles)
    if folder is not None and not folder.is_dir():
        raise NotADirectoryError(f"no folder of profiles: {folder}")
    if isinstance(text, Source):
        return text_of(text.name, text.text.encode("utf-8", "surrogatepass")), folder
    if isinstance(text, str):
        return text_of(_UNNAMED, text.encode("utf-8", "surrogatepass")), folder
    if not isinstance(text, os.PathLike):
        raise TypeError(f"a text is a str, a path or a Source, not {type(text).__name__}")
    path = os.fspath(text)
    name = clean(path).replace("\n", "\ufffd")
    return text_of(name, bytes_of(path)), Path(path).parent if folder is None else folder


def _asked(
    text: Text, profiles: Folder | None, only: str | None, pitches: Pitches, draft: bool
) -> tuple[Source | UnreadableFile, Options]:
    """A text with the options for its page; ValueError for an invalid option."""
    from gesturesmith.pipeline import Options

    if pitches not in get_args(Pitches):
        raise ValueError(f"unknown pitches {pitches!r} (choose {', '.join(get_args(Pitches))})")
    found, folder = _given(text, profiles)
    stem = PurePath(found.name).name.removesuffix(".gesture")
    return found, Options(folder=folder, stem=stem, pitches=pitches, draft=draft, suggest="")


def _names(report: FileReport) -> list[str]:
    return [*(g.name for g in report.gestures), *(p.name for p in report.passages)]


def _there(only: str | None, report: FileReport, names: list[str]) -> None:
    """Raise ValueError if nothing has the name asked for, unless a mistake is the reason."""
    if only is None or not report.readable or folded(only) in map(folded, names):
        return
    raise ValueError(f"nothing is called {only!r} (there are {', '.join(names) or 'none'})")


# --- the stages ------------------------------------------------------------------------------------------


def _checked(text: Text, profiles: Folder | None, **how: Any) -> FileReport:
    """The result of checking a text; `how` are further arguments of `check_text`."""
    from gesturesmith.checker import check_text

    found, folder = _given(text, profiles)
    return found.report if isinstance(found, UnreadableFile) else check_text(found, folder=folder, **how).report


def _rendered(
    source: Source, options: Options, formats: tuple[str, ...], *, lilypond: Folder | None = None, jobs: int = 1
) -> Rendering:
    """Make the files of a text as the command does, in a temporary folder."""
    import tempfile

    from gesturesmith import batch, cache, paths, writers
    from gesturesmith.lilypond import Failure, MissingLilyPond, find
    from gesturesmith.pipeline.text import compile_file
    from gesturesmith.writers import Output

    needed = any(writers.get(name).engraved for name in formats)
    found = find(Path(lilypond) if lilypond is not None else None) if needed else MissingLilyPond("")
    if needed and isinstance(found, MissingLilyPond):
        raise LilyPondNotFound(found.reason)
    build = batch.Build(name=source.name, compile=compile_file, sources=(source,), options=options, formats=formats)
    with tempfile.TemporaryDirectory(prefix="gesturesmith-", dir=paths.temporary()) as folder:
        setup = batch.BatchSetup(
            output=Path(folder), inputs=(), lilypond=found, store=cache.null_store(), jobs=jobs
        )
        (done,) = batch.run((build,), setup)
        if done.bug is not None:
            raise done.bug
        files = tuple(Output(place=m.place, data=(Path(folder) / m.place).read_bytes()) for m in done.outputs)
    blocked = () if done.blocked is None else (Failure(gesture=None, summary=done.blocked.reason),)
    return Rendering(report=done.reports[0], files=files, failures=(*done.failures, *blocked))


if not TYPE_CHECKING:

    def __getattr__(name: str) -> Any:
        """Names from modules that a check does not import."""
        rooms = {"Failure": "lilypond", "Output": "writers", "Reading": "model.reading"}
        if name not in rooms:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        from importlib import import_module

        return getattr(import_module(f"gesturesmith.{rooms[name]}"), name)
