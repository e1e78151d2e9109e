"""Practice lines for a technique in five levels: short phrases within a student's reach, approved by the checker.

What a level holds is in `levels`, the notes and keys of an instrument in `compass`, the phrases in `shapes`. These
are tried in an order that looks random and is always the same. Of the playable ones each level takes a few, none of
them easier than the hardest of the level before.
"""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import count, islice, product

from gesturesmith import techniques
from gesturesmith.diagnostics import Verdict
from gesturesmith.difficulty.score import difficulty
from gesturesmith.exercises import compass, levels, shapes
from gesturesmith.exercises.levels.base import StudentLevel
from gesturesmith.exercises.phrases import PhraseAsked, line, starts, way_of
from gesturesmith.exercises.probes import easiest, lacking, written_range
from gesturesmith.exercises.shapes.base import PhraseShape
from gesturesmith.instruments._build import cents
from gesturesmith.instruments.base import Instrument
from gesturesmith.judge.gesture import judge
from gesturesmith.model.builder import NewGesture, make
from gesturesmith.model.gesture import LEVELS
from gesturesmith.realise.tonguing import rate_limit
from gesturesmith.rules.base import Case
from gesturesmith.techniques.base import Technique, joining
from gesturesmith.units import KeySignature, Spelling
from gesturesmith.values import frozen

LEVELS_OF_SHEETS = (1, 2, 3, 4, 5)
_LINES = 8  # on a sheet
_TRIED = 120  # phrases per level, as many again
_AGAIN = 3  # times if hardly any is playable
_KEPT = 24  # playable ones, of which the lines of a level are chosen
_LEAST, _ENOUGH = 6, 10
_WIDER = (0, 1, 2, 4, 7)  # diatonic steps by which slides are wider than the shape's
_TEMPI = (50, 184)  # quarters a minute, for tongued notes
_STROKES = {"single_tongue": (1, 2, 4), "double_tongue": (2, 4), "triple_tongue": (3, 6)}
_OTHER_STROKES = (1, 2)
_ALL_NOTES = 3  # the first level that may look for a technique outside its student's notes
_OCTAVE = 1200
_BEYOND_FIRST = 300  # cents, each way, from level to level before that
_PARTNERS = ("tongue", "tone", "voice")  # layers of a second technique


@frozen(kw_only=True)
class Graded:
    """One line: what it is made of, how it is played, and its difficulty."""

    asked: PhraseAsked
    case: Case
    difficulty: float

    @property
    def meter(self) -> tuple[int, int]:
        return self.asked.shape.meter


@lru_cache(maxsize=32)
def graded(
    technique: Technique, instrument: Instrument, seed: int = 0, last: int = 5
) -> Mapping[int, tuple[Graded, ...]]:
    """The lines of each level that has any, in the order to practise them.

    seed   another number gives other lines, the same number the same
    last   the last level wanted; it makes no difference to those before
    """
    found: dict[int, tuple[Graded, ...]] = {}
    if lacking(technique, instrument) or easiest(technique, instrument).verdict is not Verdict.PLAYABLE:
        return found
    least = 0.0
    for level in levels.numbered()[:last]:
        tried = [one for one in _playable(technique, instrument, level, seed) if one.difficulty >= least]
        tried.sort(key=lambda one: one.difficulty)
        half = max(_LEAST, -(-len(tried) // 2))
        # The last level stretches, the others leave room for the next.
        part = tried[-half:] if level.number == len(LEVELS_OF_SHEETS) else tried[:half]
        lines = tuple(sorted(_varied(part), key=lambda one: one.difficulty))
        if lines:
            found[level.number] = lines
            least = lines[-1].difficulty
    return found


def _varied(row: list[Graded]) -> list[Graded]:
    """A few lines, the easiest of every shape before a second of any."""
    used: Counter[PhraseShape] = Counter()
    turns = []
    for one in row:
        turns.append((used[one.asked.shape], one.difficulty))
        used[one.asked.shape] += 1
    order = sorted(range(len(row)), key=lambda n: turns[n])
    return [row[n] for n in order[:_LINES]]


def _playable(technique: Technique, instrument: Instrument, level: StudentLevel, seed: int) -> list[Graded]:
    """Phrases of a level that are playable without care.

    Those with advice from the checker are left out as well, as long as there are enough without.
    """
    plain: list[Graded] = []
    advised: list[Graded] = []
    seen: set[object] = set()
    for low, high in _ranges(technique, instrument, level):
        phrases = islice(_asked(technique, instrument, level, seed, (low, high)), _TRIED * _AGAIN)
        for number, asked in enumerate(phrases):
            if len(plain) == _KEPT or (number >= _TRIED and len(plain) + len(advised) not in range(1, _ENOUGH)):
                break
            new = line(technique, instrument, asked, f"l{level.number}n{number}")
            tune = _tune(new) if new is not None else ()
            if new is None or tune in seen or not _within(new, low, high, level):
                continue
            gesture, _ = make(new)
            judged = judge(gesture) if gesture is not None else None
            if judged is None or judged.verdict is not Verdict.PLAYABLE or not _reached(judged.case, level):
                continue
            seen.add(tune)
            one = Graded(asked=asked, case=judged.case, difficulty=difficulty(judged.case).exact)
            (advised if judged.findings else plain).append(one)
        if plain or advised:
            break
    return plain if len(plain) >= _LINES else plain + advised[: _LINES - len(plain)]


# --- what is tried --------------------------------------------------------------------------------------------


class _Dice:
    """Choices that look random and are the same on every machine."""

    def __init__(self, *seeds: object) -> None:
        self._left = int.from_bytes(hashlib.sha256(repr(seeds).encode()).digest())

    def choose[T](self, row: Sequence[T]) -> T:
        self._left, place = divmod(self._left, len(row))
        return row[place]


def _asked(
    technique: Technique, instrument: Instrument, level: StudentLevel, seed: int, ends: tuple[Fraction, Fraction]
) -> Iterator[PhraseAsked]:
    """The phrases to try, without end."""
    way = way_of(technique)
    phrases = tuple(map(shapes.get, shapes.names()))
    keys, tempi = _keys(instrument, level), _tempi(instrument, level)
    dynamics = tuple(dict.fromkeys(_possible(technique, one) for one in level.dynamics.value))
    partners = _partners(technique, instrument) if level.joined and way == "note" else ()
    rates = _rates(technique, instrument, level) if way == "tongue" else ()
    for number in count():
        dice = _Dice(seed, technique.key, instrument.key, level.number, number)
        shape, key = phrases[number % len(phrases)], KeySignature(dice.choose(keys), "major")
        pace = dice.choose(level.pace.value)
        places = starts(shape, key, ends, one_note=technique.pitched == "none")
        if not places:
            continue
        strokes, tempo = dice.choose(rates) if rates else (0, dice.choose(tempi))
        yield PhraseAsked(
            shape=shape,
            key=key,
            degree=dice.choose(places),
            pace=pace,
            tempo=tempo,
            share=dice.choose(level.shares.value),
            dynamics=dice.choose(dynamics),
            strokes=strokes,
            wider=dice.choose(_WIDER) if way == "slide" else 0,
            joined=dice.choose(("", "", *partners)),
        )


def _keys(instrument: Instrument, level: StudentLevel) -> tuple[int, ...]:
    """The written keys of a level that the student has learnt; all of those if the level has others."""
    keys, student = compass.of(instrument).keys_of(level.number), instrument.student
    if student is None or not student.keys:
        return keys
    return tuple(key for key in keys if key in student.keys) or student.keys


def _tempi(instrument: Instrument, level: StudentLevel) -> tuple[int, ...]:
    """The tempi of a level, moved to those of the student."""
    student = instrument.student
    if student is None or student.tempi is None:
        return level.tempi.value
    slowest, fastest = student.tempi
    return tuple(dict.fromkeys(min(fastest, max(slowest, tempo)) for tempo in level.tempi.value))


def _ranges(
    technique: Technique, instrument: Instrument, level: StudentLevel
) -> Iterator[tuple[Fraction, Fraction]]:
    """The written notes to try a technique on: the student's, from level 3 on all there are if it is possible on
    none of those.
    """
    low, high = compass.of(instrument).range_of(level.number, instrument)
    if technique.first_notes is not None:
        first_low, first_high = (Fraction(cents(name)) for name in technique.first_notes.value)
        further = _BEYOND_FIRST * max(0, level.number - 1)
        if level.number < _ALL_NOTES:
            low, high = first_low - further, first_high + further
        else:
            low, high = min(low, first_low), max(high, first_high)
    yield low, high
    if level.number >= _ALL_NOTES:
        whole = written_range(instrument)
        lowest, highest = whole[0].pitch_cents, whole[-1].pitch_cents
        yield lowest, lowest + _OCTAVE
        yield highest - _OCTAVE, highest


def _possible(technique: Technique, dynamics: tuple[str, ...]) -> tuple[str, ...]:
    """Levels moved to where the technique works."""
    softest, loudest = technique.limits.get("softest"), technique.limits.get("loudest")
    least = LEVELS.index(softest.narrow.value) if softest is not None else 0
    most = LEVELS.index(loudest.narrow.value) if loudest is not None else len(LEVELS)
    row = tuple(LEVELS[min(most, max(least, LEVELS.index(level)))] for level in dynamics)
    return tuple(dict.fromkeys(row))


def _rates(technique: Technique, instrument: Instrument, level: StudentLevel) -> tuple[tuple[int, int], ...]:
    """Repeats in a beat and tempo, of what is tongued."""
    middle = instrument.register("middle") or instrument.registers[0]
    limits = [instrument.limits.get(rate_limit(instrument, (technique,), middle.name))]
    limits.append(technique.limits.get("fastest_per_s"))
    fastest = min(float(limit.narrow.value) for limit in limits if limit is not None)
    found = []
    for share, strokes in product(level.tongue.value, _STROKES.get(technique.rate, _OTHER_STROKES)):
        tempo = 2 * int(fastest * share * 60 / strokes / 2)
        slowest, fastest_tempo = (instrument.student and instrument.student.tempi) or _TEMPI
        if max(_TEMPI[0], slowest) <= tempo <= min(_TEMPI[1], fastest_tempo):
            found.append((strokes, tempo))
    slowest = ((instrument.student and instrument.student.tempi) or _TEMPI)[0]
    return tuple(found) or ((_STROKES.get(technique.rate, _OTHER_STROKES)[0], slowest),)


@lru_cache(maxsize=64)
def _partners(technique: Technique, instrument: Instrument) -> tuple[str, ...]:
    """Techniques that a professional joins to this one, note by note."""
    there = (techniques.get(key) for key in techniques.names())
    return tuple(
        t.key
        for t in there
        if t.layer in _PARTNERS
        and t.layer != technique.layer
        and way_of(t) == "note"
        and t.pitched == "exact"
        and not t.sings
        and instrument.gives(t.needs)
        and joining(technique, t).verdict == "goes"
    )


def _tune(new: NewGesture) -> tuple[object, ...]:
    """What is heard of a line, whatever its key is called, its tempo and its level."""
    return tuple((point.pitch.name, point.at) for point in new.points if isinstance(point.pitch, Spelling))


def _within(new: NewGesture, low: Fraction, high: Fraction, level: StudentLevel) -> bool:
    """Whether every note is the student's, and no step too wide; lines lead as far as two of them."""
    row = [point for point in new.points if isinstance(point.pitch, Spelling)]
    heights = [point.pitch.pitch_cents for point in row if isinstance(point.pitch, Spelling)]
    steps = ((b - a, point.line) for a, b, point in zip(heights, heights[1:], row[1:], strict=False))
    widest = level.widest.value
    return all(low <= h <= high for h in heights) and all(
        abs(step) <= (widest if joined == "none" else 2 * widest) for step, joined in steps
    )


def _reached(case: Case, level: StudentLevel) -> bool:
    """Whether the arm reaches every slide position."""
    if level.position is None or case.instrument.kind != "slide":
        return True
    tubes = [point.tube for point in case.realisation.points if point.tube is not None]
    # A tube may be named "short 2" or "long 5".
    return all(int(tube.valves.split()[-1]) <= level.position.value for tube in tubes)
