"""The music of everything in a file that may be engraved."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from gesturesmith.checker import Checked
from gesturesmith.diagnostics import FileReport, Finding, GestureReport, PassageReport, Verdict
from gesturesmith.pipeline.types import Options

if TYPE_CHECKING:  # `check` needs neither Abjad nor files
    from pathlib import Path

    from gesturesmith.backends.lilypond import EngravedMusic
    from gesturesmith.kinds import Pitches
    from gesturesmith.model.piece import Settings
    from gesturesmith.pipeline.gesture_cache import GestureCache
    from gesturesmith.score.music import CueNotes, Music


def engraved(
    checked: Checked,
    report: FileReport,
    settings: Settings,
    options: Options,
    kept: GestureCache | None,
    reads: Iterable[Path] = (),
    *,
    cues: Mapping[str, tuple[CueNotes, ...]] | None = None,
) -> Iterator[EngravedMusic]:
    """The music of everything that may be engraved, in file order: gestures, then passages.

    What is on the `kept` is not engraved again, and what is not is put there; `reads` were read for it.
    """
    from gesturesmith.backends import lilypond

    written = lilypond.engraved if options.reads_ly else lilypond.without_text
    unread = {name for name, _ in report.unread}
    everything: tuple[GestureReport | PassageReport, ...] = (*report.gestures, *report.passages)
    for said in everything:
        if (said.verdict is Verdict.NOT_AS_WRITTEN and not options.draft) or said.name in unread:
            continue
        engraving = kept.engraving(said.name) if kept is not None else None
        if engraving is None:
            draft = _draft_lines(said, settings, options)
            cued = cues.get(said.name, ()) if cues is not None else ()
            music = _score(checked, said.name, settings, options.pitches, draft, cued)
            if music is not None:
                engraving = written(music)
                if kept is not None:
                    kept.put(engraving, report, reads)
        if engraving is not None:
            yield engraving


def in_order(systems: Sequence[Sequence[EngravedMusic]], options: Options) -> tuple[tuple[EngravedMusic, ...], ...]:
    """The same music as it stands one after the other on a page, where one piece may have to say that what held at
    the end of the one before it is over. Each item holds what is read at once: a piece, or that of each of two
    players, who go on from their own or from the one they share."""
    from gesturesmith.backends import lilypond
    from gesturesmith.score.following import following, silent

    written = lilypond.engraved if options.reads_ly else lilypond.without_text
    made = []
    before: tuple[Music, ...] = ()
    for system in systems:
        own = len(before) == len(system)
        earlier = tuple(before[n : n + 1] if own else before for n in range(len(system)))
        musics = tuple(following(one.music, known) for one, known in zip(system, earlier, strict=True))
        made.append(
            tuple(one if one.music is music else written(music) for one, music in zip(system, musics, strict=True))
        )
        pairs = zip(musics, earlier, strict=True)
        before = tuple(one for music, known in pairs for one in (known if silent(music) else (music,))) or before
    return tuple(made)


def _score(
    checked: Checked,
    name: str,
    settings: Settings,
    pitches: Pitches,
    draft: tuple[str, ...],
    cues: tuple[CueNotes, ...],
) -> Music | None:
    from gesturesmith.score import gesture_score, passage_score

    case, played = checked.cases.get(name), checked.passage_cases.get(name)
    if case is not None:
        return gesture_score(case, settings, pitches=pitches, draft=draft)
    if played is not None:
        return passage_score(played, settings, pitches=pitches, draft=draft, cues=cues)
    return None


def _draft_lines(said: GestureReport | PassageReport, settings: Settings, options: Options) -> tuple[str, ...]:
    """The lines printed with a draft: the verdict, then the findings, worst first; none if it is not a draft."""
    if not options.draft:
        return ()
    from gesturesmith.wording import text as wording

    verdict = wording(f"verdict-{said.verdict.value}", settings.wording[0])
    worst_first = sorted(said.findings, key=lambda f: -f.severity.rank if f.severity is not None else 0)
    return (verdict, *(_finding_line(f) for f in worst_first))


def _finding_line(finding: Finding) -> str:
    where = f"{finding.where}: " if finding.where else ""
    return f"{where}{finding.text}"
