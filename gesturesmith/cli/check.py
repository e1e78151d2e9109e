"""`gesturesmith check`."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from functools import partial
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

import click

from gesturesmith.cli.bug import ADVICE, apart
from gesturesmith.cli.console import complain, say, say_bytes
from gesturesmith.cli.json_schema import schema_option
from gesturesmith.cli.profiles import folder_of, profiles_option
from gesturesmith.cli.scores import score_options, unknown_parts
from gesturesmith.cli.status import Status, worst

if TYPE_CHECKING:
    from gesturesmith.diagnostics import FileReport, ScoreReport
    from gesturesmith.rules.base import PassageCase
    from gesturesmith.textfile import UnreadableFile
    from gesturesmith.writers import Output


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option("--json", "as_json", is_flag=True, help="Print the result as one JSON object.")
@schema_option("report")
@profiles_option
@score_options
@click.option(
    "--draw",
    type=click.Path(file_okay=False, path_type=Path),
    metavar="DIR",
    help="Draw the breath and effort of each part of a score over its time, as DIR/SCORE/PART.svg.",
)
@click.pass_context
def check(
    context: click.Context,
    files: tuple[str, ...],
    as_json: bool,
    profiles: Path | None,
    parts: Mapping[str, str],
    tempo: Fraction | None,
    draw: Path | None,
) -> Status:
    """Check whether, and how, each gesture of FILE... can be played. A folder stands for all its gesture files.

    FILE may be a score in MusicXML (.musicxml, .mxl, .xml): its brass parts are checked, and findings name part,
    bar and beat.
    """
    from gesturesmith.cli.input_files import InputFile, find_files
    from gesturesmith.cli.progress import Progress
    from gesturesmith.diagnostics import Report, render_json, render_scores, render_text
    from gesturesmith.pipeline import Options, compile_text
    from gesturesmith.textfile import UnreadableFile, read

    reports, spoken = [], []
    scores: list[ScoreReport] = []
    drawings: list[Output] = []
    faults = 0
    progress = Progress()
    found = find_files(files)
    for number, one in enumerate(found):
        if isinstance(one, InputFile) and _is_score(one.path):
            progress(f"{one.path}: checking", number, len(found))
            score = apart(one.path, partial(_score, one.path, parts, tempo, drawings if draw else None))
            if score is None:
                faults += 1
            elif isinstance(score, UnreadableFile):
                if not as_json:
                    complain(f"{score.name}: {score.message}")
                reports.append(score.report)
            else:
                scores.append(score)
            continue
        source = one if isinstance(one, UnreadableFile) else read(one.path)
        if isinstance(source, UnreadableFile):
            if not as_json:
                complain(f"{source.name}: {source.message}")
            reports.append(source.report)
        elif isinstance(one, InputFile):
            progress(f"{source.name}: checking", number, len(found))
            options = Options(folder=folder_of(one.path, profiles), only_check=True)
            outcome = apart(source.name, partial(compile_text, source, options))
            if outcome is None:
                faults += 1
            else:
                spoken.append(outcome.report)
                reports.append(outcome.report)
    progress.done()
    colour = bool(context.color)
    if as_json:
        say_bytes(render_json(Report(files=tuple(reports), scores=tuple(scores))).encode())
    else:
        if spoken:
            say(render_text(Report(files=tuple(spoken)), colour=colour).rstrip("\n"))
        if scores:
            say(render_scores(scores, colour=colour).rstrip("\n"))
    statuses = [*map(status_of, reports), *map(status_of, scores)]
    missing = unknown_parts(parts, (name for s in scores for name in (*(p.part for p in s.parts), *s.others)))
    if missing:
        complain(f"gesturesmith: --part: {missing}")
        statuses.append(Status.INPUT)
    if len(reports) + len(scores) + faults > 1 and not as_json:
        say(_in_all(statuses[: len(reports) + len(scores)], faults))
    if draw is not None:
        statuses.append(_draw(drawings, draw, [Path(one.path) for one in found if isinstance(one, InputFile)]))
    if faults:
        complain(ADVICE)
    return worst(*statuses, *([Status.MACHINE] if faults else []))


def _is_score(path: str) -> bool:
    from gesturesmith.importers.files import is_score

    return is_score(path)


def _score(
    path: str, parts: Mapping[str, str], tempo: Fraction | None, drawings: list[Output] | None
) -> ScoreReport | UnreadableFile:
    """The report on a score; pictures of its parts go to `drawings`, if these are wanted."""
    from gesturesmith.importers.files import read_score
    from gesturesmith.importers.judged import judged_with_lines
    from gesturesmith.textfile import UnreadableFile, shown_name

    score = read_score(path, parts)
    if isinstance(score, UnreadableFile):
        return score
    report, lines = judged_with_lines(score, shown_name(path), tempo)
    if drawings is not None:
        drawings += _drawings(Path(path).stem, report, lines)
    return report


def _drawings(stem: str, report: ScoreReport, lines: Sequence[PassageCase | None]) -> Iterator[Output]:
    from gesturesmith.pictures.stamina import stamina
    from gesturesmith.pipeline.naming import file_name
    from gesturesmith.writers import Output
    from gesturesmith.writers.sketch import sealed

    taken: set[PurePosixPath] = set()
    for part, line in zip(report.parts, lines, strict=True):
        if line is not None:
            name = file_name(f"{part.part} {part.player}" if part.player else part.part)
            place = PurePosixPath(file_name(stem), f"{name}.svg")
            count = 2
            while place in taken:
                place, count = place.with_name(f"{name} {count}.svg"), count + 1
            taken.add(place)
            yield Output(place=place, data=sealed(stamina(part, line)))


def _draw(drawings: Sequence[Output], folder: Path, inputs: Sequence[Path]) -> Status:
    from gesturesmith.delivery import Blocked, deliver

    delivered = deliver(drawings, folder, inputs=inputs)
    if isinstance(delivered, Blocked):
        complain(delivered.reason)
        return Status.MACHINE if delivered.machine else Status.INPUT
    for path in delivered.paths:
        complain(f"drew {path}")
    return Status.GOOD


def _in_all(statuses: list[Status], faults: int) -> str:
    """`total: 30 playable, 6 not as written, 4 with errors`, and those that met a bug of ours, if any."""
    count = Counter(statuses)
    words = {Status.GOOD: "playable", Status.REFUSED: "not as written", Status.INPUT: "with errors"}
    said = [f"{count[status]} {word}" for status, word in words.items()]
    return f"total: {', '.join([*said, *([f'{faults} not checked'] if faults else [])])}"


def status_of(report: FileReport | ScoreReport) -> Status:
    """The exit status for the report on a file or a score."""
    if not report.readable:
        return Status.INPUT
    return Status.REFUSED if report.refused else Status.GOOD
