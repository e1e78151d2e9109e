"""From a checked gesture or passage to its score, as plain values, independent of any format."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from gesturesmith.kinds import Pitches
from gesturesmith.model.changes import Change, DoubleBar, KeyChange, TempoGradually
from gesturesmith.model.piece import Passage, Settings
from gesturesmith.model.tempo import steady
from gesturesmith.rules.base import Case, PassageCase
from gesturesmith.score import boxes, describe, notes, room, written
from gesturesmith.score.music import CueNotes, Footnote, Music, RepeatedStretch, barred
from gesturesmith.score.plan import in_seconds, plan
from gesturesmith.score.rhythm import Meter, free
from gesturesmith.tones import perform, perform_passage
from gesturesmith.units import UNISON, Interval, KeySignature
from gesturesmith.wording import text as wording

__all__ = ["CueNotes", "Footnote", "Music", "gesture_score", "passage_score"]


def gesture_score(
    case: Case, settings: Settings, *, pitches: Pitches = "written", draft: tuple[str, ...] = ()
) -> Music:
    """The music of one gesture, without meter. `pitches`: "written" for the part, "sounding" for concert score."""
    gesture, instrument = case.gesture, case.instrument
    whole = plan(
        ((case, Fraction(0), gesture.beats),),
        instrument,
        settings,
        free(gesture.beat),
        pitches,
        steady(gesture.tempo),
    )
    return Music(
        name=gesture.name,
        title=gesture.title,
        kind="gesture",
        parts=written.parts(whole),
        beats=whole.beats,
        turns=whole.turns,
        instrument=instrument.key,
        transposition=UNISON if pitches == "sounding" else instrument.sounding,
        pitches=pitches,
        free=whole.free,
        place=room.place(gesture, whole),
        staff_lines=whole.stave.lines,
        clef=whole.clef,
        last_clef=whole.last_clef,
        meter=None,
        tempo=None,
        tempo_text=None,
        counted=settings.counted,
        footnotes=whole.footnotes,
        description=describe.gesture_in_words(case, settings.wording, pitches),
        cautions=notes.cautions((case,), settings.wording),
        draft=draft,
        performance=perform(gesture, case.realisation),
    )


def passage_score(
    passage_case: PassageCase,
    settings: Settings,
    *,
    pitches: Pitches = "written",
    draft: tuple[str, ...] = (),
    cues: tuple[CueNotes, ...] = (),
) -> Music:
    """The music of a passage, barred as its meter says."""
    passage, instrument = passage_case.passage, settings.instrument
    played = tuple(
        (case, item.at, item.beats) for item, case in zip(passage.items, passage_case.cases, strict=True)
    )
    transposition = UNISON if pitches == "sounding" else instrument.sounding
    key = _on_page(passage.key, transposition)
    changes = tuple(_change_on_page(change, transposition) for change in passage.changes)
    keys = [(change.at, change.key) for change in changes if isinstance(change, KeyChange)]
    meter = barred(passage.meter, passage.counted, passage.pickup, passage.changes)
    repeated = any(r.end == passage.beats for r in passage.repeats)
    held = frozenset(item.at for item in passage.items if item.fermata)
    after = {item.at + item.beats for item in passage.items if item.fermata}
    cuts = frozenset((*(cue.start for cue in cues), *_times(passage.changes), *held, *after))
    boxed = boxes.of(passage)
    filled = tuple(_cut(_filled(played, None if repeated else meter, boxed), cuts, boxed))
    whole = plan(
        filled,
        instrument,
        settings,
        meter,
        pitches,
        passage.tempo_map,
        repeated=bool(passage.repeats),
        players=_players(passage, settings.wording[0]),
        cuts=cuts,
        boxed=boxed,
        borders=boxes.edges(passage) | {at for r in passage.repeats for at in (r.start, r.end)},
        held=held,
        keys=(*(((Fraction(0), key),) if key is not None else ()), *keys),
    )
    times = wording("times", settings.wording[0])
    cases = tuple(case for case in passage_case.cases if case is not None)
    return Music(
        name=passage.name,
        title=passage.title,
        kind="passage",
        parts=written.parts(whole),
        beats=whole.beats,
        turns=whole.turns,
        repeats=tuple(
            RepeatedStretch(start=r.start, end=r.end, times=r.times, text=times.replace("{count}", str(r.times)))
            for r in passage.repeats
        ),
        instrument=instrument.key,
        transposition=transposition,
        pitches=pitches,
        free=whole.free,
        staff_lines=whole.stave.lines,
        clef=whole.clef,
        last_clef=whole.last_clef,
        meter=passage.meter,
        tempo=None if in_seconds(cases) else passage.tempo,
        tempo_text=passage.tempo_text,
        counted=passage.counted,
        bar=passage.bar,
        tempo_map=passage.tempo_map,
        pickup=passage.pickup,
        key=key,
        changes=changes,
        last_bar="" if repeated else "||" if DoubleBar(at=passage.beats) in changes else "|.",
        footnotes=whole.footnotes,
        description=describe.passage_in_words(passage, settings.wording, pitches),
        cautions=notes.cautions(cases, settings.wording),
        draft=draft,
        cues=cues,
        performance=perform_passage(
            passage,
            [(case.gesture, case.realisation) if case is not None else None for case in passage_case.cases],
        ),
    )


def _times(changes: tuple[Change, ...]) -> Iterator[Fraction]:
    """The times at which something changes or ceases to."""
    for change in changes:
        yield change.at
        if isinstance(change, TempoGradually):
            yield change.until


def _on_page(key: KeySignature | None, transposition: Interval) -> KeySignature | None:
    """A sounding key at the pitch of the page."""
    return key.transposed(-transposition) if key is not None else None


def _change_on_page(change: Change, transposition: Interval) -> Change:
    return replace(change, key=change.key.transposed(-transposition)) if isinstance(change, KeyChange) else change


def _cut(
    played: tuple[tuple[Case | None, Fraction, Fraction], ...], cuts: frozenset[Fraction], boxed: boxes.Boxes
) -> Iterator[tuple[Case | None, Fraction, Fraction]]:
    """What is played, with rests in two where a cue begins."""
    for case, at, beats in played:
        rest = case is None and at not in boxed
        inside = sorted(cut for cut in cuts if rest and at < cut < at + beats)
        for start, end in pairwise((at, *inside, at + beats)):
            yield case, start, end - start


def _players(passage: Passage, language: str) -> dict[Fraction, str]:
    """Changes of which of two players plays, with the words printed there; initially both."""
    found: dict[Fraction, str] = {}
    said, now = "", "a2"
    for item in passage.items if passage.two_players else ():
        now = item.who or now
        if item.gesture is not None and now != said:
            said = now
            found[item.at] = wording(f"players-{now}", language)
    return found


def _filled(
    played: tuple[tuple[Case | None, Fraction, Fraction], ...], meter: Meter | None, boxed: boxes.Boxes
) -> tuple[tuple[Case | None, Fraction, Fraction], ...]:
    """The items to play, with adjacent rests merged and a rest that fills the last bar."""
    joined: list[tuple[Case | None, Fraction, Fraction]] = []
    for case, at, beats in played:
        if case is None and joined and joined[-1][0] is None and not boxes.apart(boxed, at, joined[-1][1]):
            joined[-1] = (None, joined[-1][1], joined[-1][2] + beats)
        else:
            joined.append((case, at, beats))
    end = joined[-1][1] + joined[-1][2]
    until = meter.bar_end(end) if meter is not None and end != meter.bar_start(end) else None
    if until is not None:
        return _filled((*joined, (None, end, until - end)), None, boxed)
    return tuple(joined)
