"""Pages of every kind, each with what it must say. The product makes the documents, which are not inspected
here."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from pathlib import Path

from reading import compare, dump, notation, says

from gesturesmith import instruments, techniques
from gesturesmith.acoustics.series import partial_cents
from gesturesmith.checker import check
from gesturesmith.exercises import frame, graded
from gesturesmith.exercises import levels as student
from gesturesmith.exercises import preparation as practice
from gesturesmith.instruments.base import Instrument, Tube
from gesturesmith.model.piece import Settings
from gesturesmith.model.reading import PartReading, read
from gesturesmith.pipeline.chart import ChartOptions, compile_chart
from gesturesmith.pipeline.graded import GradedOptions, compile_graded
from gesturesmith.pipeline.notes import compile_notes
from gesturesmith.pipeline.sheet import SheetOptions, compile_sheet
from gesturesmith.pipeline.text import compile_text
from gesturesmith.pipeline.types import NotesOptions, Options
from gesturesmith.rules.base import PassageCase
from gesturesmith.source import Source
from gesturesmith.units import Spelling
from gesturesmith.writers import Item


@dataclass(frozen=True)
class Score:
    """One score of a document and what it must say.

    file      its origin, for people
    name      of the gesture, passage or line
    kind      page | snippet | sheet | warm-up | ...
    said      the content asked for by the file
    prepared  spellings of the small notes before the music; None: there are none
    """

    file: str
    name: str
    kind: str
    said: says.Said
    prepared: tuple[Spelling, ...] = ()

    def differences(self, reading: notation.Reading) -> list[str]:
        return [*compare.differences(reading, self.said), *compare.prepared(reading.prepared, list(self.prepared))]


@dataclass(frozen=True)
class ScoreOfParts:
    """One passage of a score: what each staff must say, by the name before it."""

    file: str
    name: str
    staves: tuple[tuple[str, says.Said], ...]
    kind: str = "score"

    def differences_of(self, grobs: list[dump.Grob], count: Count) -> list[str]:
        readings = notation.read_staves(grobs)
        found = [*notation.out_of_line(grobs), *notation.meters_again(grobs)]
        if len(readings) != len(self.staves):
            return [*found, f"{len(readings)} staves are printed, {len(self.staves)} are asked for"]
        for reading, (name, said) in zip(readings, self.staves, strict=True):
            count.notes += len(reading.notes)
            count.heads += reading.heads
            if not set(name.split()) <= set(reading.label.split()):
                found.append(f"the staff of {name} is called {reading.label}")
            found += [f"{name}: {problem}" for problem in compare.differences(reading, said)]
        return found


@dataclass(frozen=True)
class CuedPart:
    """A line of a part with cues: what it says, and the lines of the other parts, in sounding pitches."""

    file: str
    name: str
    said: says.Said
    sounding: Fraction  # cents from what is written to what sounds
    others: tuple[tuple[str, says.Said], ...]
    kind: str = "cued"

    def differences_of(self, grobs: list[dump.Grob], count: Count) -> list[str]:
        own = notation.read(grobs, without=CUE)
        # The cue goes on in the rest of the part.
        found = [p for p in compare.differences(own, self.said) if "rest" not in p and "silen" not in p]
        cued = [g for g in grobs if g.name != "NoteHead" or g.voice_name == CUE]
        names = {title for title, _ in self.others if any(g.text == title for g in grobs)}
        for note in notation.read(cued).notes if any(g.voice_name == CUE for g in grobs) else ():
            count.cues += 1
            heard = None if note.pitch is None else note.pitch.cents + self.sounding
            played = [
                (title, asked.spelling)
                for title, said in self.others
                for asked in said.notes
                if asked.at is not None and asked.at <= note.at < asked.ends and not asked.sung
            ]
            if not any(
                pitch is not None and heard is not None and abs(pitch.pitch_cents - heard) < 100
                for _, pitch in played
            ):
                found.append(f"a cue at beat {float(note.at):g} that nobody plays")
            if not names & {title for title, _ in played}:
                found.append(f"a cue at beat {float(note.at):g} of {names}, and {played} play")
        return found


@dataclass
class Job:
    """Books, and the scores in them in order."""

    head: str = ""  # the beginning of every document
    books: list[str] = field(default_factory=list)
    scores: list[Score | ScoreOfParts | Excerpt | ChartRow | Cue] = field(default_factory=list)

    def add(
        self, item: Item, scores: Sequence[Score | ScoreOfParts | Excerpt | ChartRow | Cue], book: str | None = None
    ) -> None:
        """Add an item of the product; `book` replaces its own."""
        self.head = str(item.document).removesuffix(str(item.book))
        self.books.append(str(item.book) if book is None else book)
        self.scores += scores


def whole(job: Job) -> str:
    """The books of a job as one document."""
    return "\n".join([job.head, *job.books])


def add_file(
    job: Job,
    source: Source,
    folder: Path | None = None,
    *,
    pitches: str = "written",
    snippets: bool = False,
    draft: bool = False,
) -> None:
    """Add the page and the snippets of a file; `draft`: including refused gestures."""
    reading = read(source, folder=folder)
    piece = reading.piece
    if reading.parts:
        add_parts(job, source, folder, pitches=pitches, snippets=snippets, draft=draft)
    if piece is None:
        return
    outcome = compile_text(source, Options(folder=folder, pitches=pitches, draft=draft))
    gestures = {g.name: g for g in piece.gestures}
    passages = {p.name: p for p in piece.passages}
    heights = piece.settings.heights

    def said(name: str) -> says.Said:
        if name in gestures:
            return says.of_gesture(gestures[name], pitches=pitches, heights=heights)
        return says.of_passage(passages[name], pitches=pitches, heights=heights)

    for item in outcome.items:
        if item.kind == "page" or snippets:
            job.add(item, [Score(source.name, n, item.kind, said(n)) for n in item.excerpts])


def add_parts(
    job: Job,
    source: Source,
    folder: Path | None = None,
    *,
    pitches: str = "written",
    snippets: bool = False,
    draft: bool = False,
    cues: bool = False,
) -> None:
    """The score of a file with parts, and its parts; `cues`: the parts, with cues from each other."""
    reading = read(source, folder=folder)
    heights = reading.shared.heights
    outcome = compile_text(source, Options(folder=folder, stem="file", pitches=pitches, draft=draft, cues=cues))
    said: dict[tuple[str, str, str], says.Said] = {}
    for part in reading.parts:
        for way in ("written", "sounding"):
            for gesture in part.reading.piece.gestures:
                said[part.name, gesture.name, way] = says.of_gesture(gesture, pitches=way, heights=heights)
            for passage in part.reading.piece.passages:
                said[part.name, passage.name, way] = says.of_passage(passage, pitches=way, heights=heights)
    names = {part.name for part in reading.parts}

    def staves(part: PartReading, name: str, way: str) -> tuple[tuple[str, says.Said], ...]:
        """What the staves of a part say in a passage: two where its players are divided."""
        if name not in part.divided:
            return ((part.title, said[part.name, name, way]),)
        passages = [next(p for p in one.piece.passages if p.name == name) for one in part.players]
        return tuple(
            (f"{part.title} {number}.", says.of_passage(passage, pitches=way, heights=heights))
            for number, passage in enumerate(passages, start=1)
        )

    for item in outcome.items:
        own = next((n for n in (item.place.name, item.place.parent.name) if n in names), None)
        if item.kind != "page" and not snippets:
            continue
        if own is not None and cues:
            steps = next(p.reading.piece.settings.instrument.sounding.cents for p in reading.parts if p.name == own)
            job.add(
                item,
                [
                    CuedPart(
                        f"{source.name}, {own}",
                        n,
                        said[own, n, "written"],
                        steps,
                        tuple((p.title, said[p.name, n, "sounding"]) for p in reading.parts if p.name != own),
                    )
                    for n in item.excerpts
                ],
            )
        elif own is not None:
            (part,) = (p for p in reading.parts if p.name == own)
            file = f"{source.name}, {own}"
            job.add(
                item,
                [
                    ScoreOfParts(file, n, staves(part, n, "written"))
                    if n in part.divided
                    else Score(file, n, item.kind, said[own, n, "written"])
                    for n in item.excerpts
                ],
            )
        elif not cues:
            job.add(
                item,
                [
                    ScoreOfParts(source.name, n, tuple(one for p in reading.parts for one in staves(p, n, pitches)))
                    for n in item.excerpts
                ],
            )


@dataclass
class Count:
    """What was read and found."""

    pages: int = 0
    scores: int = 0
    notes: int = 0
    cues: int = 0
    heads: int = 0
    found: list[str] = field(default_factory=list)


def read_job(job: Job, folder: Path, program: Path | None = None) -> Count:
    """Engrave and read the scores of a job."""
    scores = dump.read(whole(job), folder, program)
    count = Count(pages=len(job.books))
    for number, score in enumerate(job.scores):
        place = f"{score.file}: {score.name} ({score.kind})"
        if number not in scores:
            count.found.append(f"{place}: nothing is printed")
            continue
        count.scores += 1
        if isinstance(score, ScoreOfParts | CuedPart):
            count.found += [f"{place}: {p}" for p in score.differences_of(scores[number], count)]
            continue
        reading = notation.read(scores[number], without=COMPANY)
        count.notes += len(reading.notes) + len(reading.prepared)
        count.heads += reading.heads
        count.found += [f"{place}: {p}" for p in score.differences(reading)]
    if len(scores) != len(job.scores):
        count.found.append(f"{len(scores)} scores are printed, {len(job.scores)} are asked for")
    return count


_TALL = (Fraction(210), Fraction(3000))  # mm: paper with room for any number of lines


def add_graded(
    job: Job, technique: str, instrument: str, levels: tuple[int, ...] = graded.LEVELS_OF_SHEETS
) -> None:
    """Add the sheets of a technique; the expected lines and preparations come from `check`."""
    settings = Settings(instrument=instruments.get(instrument), pitches="written", paper_mm=_TALL)
    practised = techniques.get(technique)
    found = graded.graded(practised, settings.instrument)
    options = GradedOptions(technique=technique, settings=settings, levels=levels)
    lines = {n: found[n] for n in levels if n in found}
    for item, (number, graded_lines) in zip(compile_graded((), options).items, lines.items(), strict=True):
        level = student.numbered()[number - 1]
        rows = [practice.barred((g.case,), g.meter, level.times, key=g.asked.key) for g in graded_lines]
        before, after = (make(practised, settings.instrument, level) for make in (frame.before, frame.after))
        _add_sheet(job, item, f"{instrument} {technique} level {number}", rows, settings, before, after, plain=True)


def add_exercises(job: Job, source: Source, folder: Path | None = None) -> None:
    """Add the sheets of the exercises of a file."""
    reading = read(source, folder=folder)
    piece = reading.piece
    if piece is None or not piece.exercises:
        return
    tall = replace(piece.settings, paper_mm=_TALL)
    checked = check(replace(reading, piece=replace(piece, settings=tall)), suggestions=False)
    for item in compile_sheet((source,), SheetOptions(folder=folder)).items:
        one = checked.practices[item.name]
        exercise = one.exercise
        rows = [
            practice.barred((line.case,), exercise.meter, exercise.times)
            for line in one.at_most(len(item.excerpts))
        ]
        before = practice.warm_up(piece.settings.instrument)
        _add_sheet(job, item, f"{source.name} {item.name}", rows, piece.settings, before)


def _add_sheet(
    job: Job,
    item: Item,
    file: str,
    rows: list[PassageCase],
    settings: Settings,
    before: PassageCase | None,
    after: PassageCase | None = None,
    *,
    plain: bool = False,
) -> None:
    scores = []
    if before is not None:
        scores.append(Score(file, "warm-up", "warm-up", says.of_passage(before.passage)))
    prepared = None
    for number, row in enumerate(rows, start=1):
        first = next(case for case in row.cases if case is not None)
        preparation = practice.preparation(first) if not plain else None
        shown = preparation.notes if preparation is not None and preparation != prepared else ()
        prepared = preparation
        said = says.with_rest_after(says.of_passage(row.passage, heights=settings.heights))
        scores.append(Score(file, f"line {number}", "sheet", said, shown))
    if after is not None:
        scores.append(Score(file, "cool-down", "cool-down", says.of_passage(after.passage)))
    job.add(item, scores)


# --- notes pages --------------------------------------------------------------------------------------------


def add_notes(job: Job, source: Source, folder: Path | None = None) -> None:
    """Add the notes page of a file: each picture shows successive notes of a gesture of the file."""
    piece = read(source, folder=folder).piece
    outcome = compile_notes((source,), NotesOptions(folders=(folder,)))
    if piece is None or not outcome.items:
        return
    (item,) = outcome.items
    played = [i.gesture for p in piece.passages for i in p.items if i.gesture is not None]
    pool: dict[str, list[says.Said]] = {}
    for gesture in (*piece.gestures, *played):
        pool.setdefault(gesture.name, []).append(says.of_gesture(gesture, heights=piece.settings.heights))
    job.add(
        item,
        [Excerpt(source.name, name, tuple(pool[name]), piece.settings.instrument) for name in item.excerpts],
    )


@dataclass(frozen=True)
class Excerpt:
    """A picture on a notes page, which must be a part of `among`."""

    file: str
    name: str
    among: tuple[says.Said, ...]
    instrument: Instrument
    kind: str = "notes"

    def differences(self, reading: notation.Reading) -> list[str]:
        harmonics = [n for n in reading.notes if n.small and n.begins == "line" and not n.stops and not n.sung]
        # A note before harmonics keeps its value, although they are spaced wider than in time.
        faults = [f for f in reading.faults if not harmonics or "the values of" not in f]
        found = [f"cannot be read: {fault}" for fault in faults]
        shown = [n for n in reading.notes if n not in harmonics]
        for row in _rows(reading.notes, harmonics):
            if not _row_of_partials(self.instrument, row[1:-1]) or not _one_way(row):
                found.append(f"harmonics of no tube: {' '.join(n.pitch.name for n in row if n.pitch)}")
        ways = [compare.part_of(shown, said, in_time=not harmonics) for said in self.among]
        return [*found, *(min(ways, key=len) if ways else ["a gesture that the file does not have"])]


def _rows(notes: list[notation.Note], harmonics: list[notation.Note]) -> list[list[notation.Note]]:
    """The harmonics of each line, with the notes at its ends."""
    rows, row = [], []
    for note in notes:
        row.append(note)
        if note not in harmonics:
            rows.append(row)
            row = [note]
    return [row for row in rows if len(row) > 2]


def _one_way(row: list[notation.Note]) -> bool:
    """Whether a line always rises or always falls."""
    cents = [n.pitch.cents for n in row if n.pitch is not None]
    return cents in (sorted(set(cents)), sorted(set(cents), reverse=True))


def _row_of_partials(instrument: Instrument, notes: list[notation.Note]) -> bool:
    """Whether heads are neighbouring partials of one tube, each named after the nearest semitone."""
    heard = [n.pitch.cents + instrument.sounding.cents for n in notes if n.pitch is not None]
    for tube in instrument.tubes:
        row = [round((tube.fundamental_cents + partial_cents(n)) / 100) * 100 for n in range(1, 33)]
        for way in (row, row[::-1]):
            if any(way[n : n + len(heard)] == heard for n in range(len(way))):
                return True
    return False


# --- charts ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class ChartRow:
    """A row of a chart: under each written note is its fingering, checked by acoustics."""

    file: str
    name: str
    instrument: Instrument
    kind: str = "chart"

    def differences(self, reading: notation.Reading) -> list[str]:
        # Heads have no length here: whole ones are notes, black ones notes that need care.
        found = [f"cannot be read: {fault}" for fault in reading.faults if "the values of" not in fault]
        columns: dict[Fraction, list[str]] = {}
        for at, text in reading.lyrics:
            columns.setdefault(at, []).append(text)
        below = 0
        for number, (at, texts) in enumerate(sorted(columns.items()), start=1):
            # One head is centred over its texts, two names of a pitch are around the centre.
            heads = [n for n in reading.notes if abs(n.at - at) <= 1]
            below += len(heads)
            pitches = {n.pitch.cents for n in heads if n.pitch is not None}
            if len(pitches) != 1:
                found.append(f"column {number} has {len(pitches)} pitches")
                continue
            (written,) = pitches
            found += [f"column {number}: {p}" for p in self._column(written, texts, reading.label)]
        if below != len(reading.notes):
            found.append("a note with nothing below it")
        return found

    def _column(self, written: Fraction, texts: list[str], label: str) -> list[str]:
        sounding = float(written + self.instrument.sounding.cents)
        if texts[0] == "–":
            return []
        if self.name == "ladders":
            tube = self._tube(label) if label else self.instrument.tubes[0]
            off = _number(texts[1])
            real = tube.fundamental_cents + partial_cents(int(texts[0])) - sounding
            return [] if abs(real - off) <= 0.6 else [f"partial {texts[0]} is {real:+.0f} cents off, not {off:+d}"]
        if len(self.instrument.tubes) == 1:
            number, *hand = texts[0].split()
            reals = [self.instrument.tubes[0].fundamental_cents + partial_cents(int(number)) - sounding]
            if not texts[1:]:
                within = -50, 50
                if hand:
                    # Closed, down to half a step above the next partial (Ericson).
                    down = partial_cents(int(number)) - partial_cents(max(1, int(number) - 1)) - 100
                    within = (0, max(_CLOSED, down + 5)) if hand == ["+"] else (-150, 0)
                right = within[0] <= reals[0] <= within[1]
                return [] if right else [f"partial {texts[0]} is {reals[0]:+.0f} cents off"]
        else:
            reals = self._reals(texts[0], sounding)
        wrong = []
        others = texts[1:]
        if others and (told := _OFF.fullmatch(others[0])):
            off = _number(told[1]) if told[1] else -_number(told[2])
            others = others[1:]
            # A slide corrects a little without saying so.
            within = _SLIDE if self.instrument.kind == "slide" else 0.6
            aside = _aside(texts[0])[0]
            if aside and not off:  # between two positions: lower than the one, higher than the next
                right = any(0 < (-real if aside == "short" else real) < 100 for real in reals)
            else:
                right = any(abs(real - off) <= within for real in reals)
            if not right:
                wrong.append(f"{texts[0]} gives no note {off:+d} cents off")
        else:
            others = texts
        for text in others:
            aside, _ = _aside(text)
            # A slide a little in raises what the position gives, a little out lowers it.
            near = [
                o
                for o in self._reals(text, sounding)
                if abs(o) <= _NEAR and (not aside or (o < 0) is (aside == "short"))
            ]
            if not near:
                wrong.append(f"no partial of {text} is within {_NEAR} cents of the note")
        return wrong

    def _reals(self, text: str, sounding: float) -> list[float]:
        """How far the partials of a fingering or position are from a pitch, in cents."""
        tube = self._tube(_aside(text)[1])
        return [tube.fundamental_cents + partial_cents(n) - sounding for n in _partials(tube)]

    def _tube(self, text: str) -> Tube:
        plain = text.replace(" ", "").replace("♭", "b")
        return {t.name.replace(" ", ""): t for t in self.instrument.tubes}[plain]


# Cents. Valves that are tuned each by itself are together too short: 1-2-3 by 53 (2^(1/6) + 2^(1/12) + 2^(1/4) - 2
# tube lengths in the place of 2^(1/2)), and their third partial by 2 more.
_NEAR = 60
_SLIDE = 25  # a quarter of the way to the next position
# How far a fingering is off, or what brings it into tune: "(+52)", "lip −16".
_OFF = re.compile(r"\(([+−±]\d+)\)|[a-z]+ ([+−]\d+)")
_CLOSED = 210  # the most, in cents, that the hand lowers an open note; on a natural horn up to a written whole tone


def _aside(text: str) -> tuple[str, str]:
    """`long 6` and `T long 6` as "long" and the position."""
    words = text.split(" ")
    aside = next((word for word in words if word in ("short", "long")), "")
    return aside, " ".join(word for word in words if word != aside)


def _partials(tube: Tube) -> range:
    return range(tube.widest_partials[0], tube.widest_partials[1] + 1)


def _number(text: str) -> int:
    return int(text.replace("−", "-").replace("±", ""))


def add_charts(job: Job, instrument: str) -> None:
    """Add the charts with notes: fingerings, quarter tones, ladders."""
    settings = Settings(instrument=instruments.get(instrument), pitches="written")
    for kind in ("fingering", "quarter-tones", "ladders"):
        (item, *_) = compile_chart((), ChartOptions(kinds=(kind,), settings=settings)).items
        rows = str(item.book).count("\\score {")
        job.add(item, [ChartRow(instrument, kind, settings.instrument) for _ in range(rows)])


# --- in a composer's score --------------------------------------------------------------------------------------

CUE = "cue"  # the voice of a cue
COMPANY = "other"  # the composer's own voice under a gesture
_BEFORE, _AFTER = ("Ab4", "Bb4", "B4", "Eb5"), ("A4", "Ab4", "B4", "Bb4")
_DUTCH = {"Ab4": "aes'", "Bb4": "bes'", "B4": "b'", "Eb5": "ees''", "A4": "a'"}


@dataclass(frozen=True)
class Cue:
    """A gesture as a cue in another part. LilyPond quotes one voice: the played one."""

    file: str
    name: str
    said: says.Said
    kind: str = "cue"

    def differences(self, reading: notation.Reading) -> list[str]:
        # The part's own rest continues under the cue.
        faults = [f for f in reading.faults if "the values of" not in f and "a rest of" not in f]
        found = [f"cannot be read: {fault}" for fault in faults]
        played = replace(self.said, notes=tuple(note for note in self.said.notes if not note.sung))
        if len(reading.notes) != len(played.notes):
            found.append(f"notes: {len(reading.notes)} in the cue, {len(played.notes)} in the file")
        return [*found, *compare.part_of(reading.notes, played, in_time=True)]


def _cue(name: str, music: str, length: Fraction) -> str:
    unit = max(4, 4 * length.denominator)
    rest = f"R1*{length.numerator}/{4 * length.denominator}"
    bar = f"\\time {length * unit / 4}/{unit}"
    cued = f'\\cueDuring "{name}" #UP {{ {rest} }}'
    return (
        f'\\addQuote "{name}" {{ {music} }}\n'
        f"\\score {{ \\new Staff {{ \\key ees \\major {bar} {cued} }} \\layout {{ }} }}\n"
    )


def add_ily(
    job: Job,
    source: Source,
    folder: Path | None = None,
    *,
    transposed: bool = False,
    company: bool = False,
    cue: bool = False,
) -> None:
    """Every gesture of a file, included into a score with a key: between a composer's own notes, perhaps moved up a
    tone, perhaps over another voice; or as a cue in another part."""
    piece = read(source, folder=folder).piece
    if piece is None:
        return
    job.head = '\\version "2.24.0"\n\\paper { page-breaking = #ly:one-page-breaking }\n'
    gestures = {g.name: g for g in piece.gestures}
    for item in compile_text(source, Options(folder=folder)).items:
        if item.kind != "snippet" or item.name not in gestures:
            continue
        said = says.of_gesture(gestures[item.name], heights=piece.settings.heights)
        if any(a.three_lines for a in said.notes) or said.length.denominator > 16 or gestures[item.name].in_seconds:
            continue
        text = str(item.ily).replace('\\version "2.24.0"', "") + '\n\\language "nederlands"\n'
        music = f'\\"gesture-{item.name}"'
        if cue:
            # A cue consists of notes; the lines and signs of a gesture stay in its own part.
            if all(a.begins == "attack" and a.ends is not None for a in said.notes if not a.sung):
                job.books.append(text + _cue(f"q{len(job.books)}", music, said.length))
                job.scores.append(Cue(source.name, item.name, said))
            continue
        if transposed:
            music = f"\\transpose c d {{ {music} }}"
        elif not company:
            music = f"\\relative c' {{ {music} }}"  # as most composers write
        before, after = (" ".join(f"{_DUTCH[n]}4" for n in row) for row in (_BEFORE, _AFTER))
        unit = max(4, 4 * said.length.denominator)
        count = said.length * unit / 4
        bar = f"\\time {count}/{unit}"
        voice = f"{before} {bar} {music} \\time 4/4 {after}"
        if company:
            # The meter stands in one voice: LilyPond would print it again after grace notes in the other.
            others = f"c'1 c'4*{count * 4 / unit} c'1"
            own, other = f"\\voiceOne {voice}", f"\\voiceTwo {others}"
            voice = f"<< \\new Voice = own {{ {own} }} \\new Voice = {COMPANY} {{ {other} }} >>"
        score = f"\\score {{ \\new Staff {{ \\key ees \\major \\time 4/4 {voice} }} \\layout {{ }} }}\n"
        job.books.append(text + score)
        asked = says.within(said, _BEFORE, _AFTER, transposed, key=-3, meter=f"{count}/{unit}")
        job.scores.append(Score(source.name, item.name, "ily", asked))
