"""What a sheet puts around a practice line: its bars, the preparation before it, the rest after it."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from gesturesmith.acoustics.series import partial_cents
from gesturesmith.diagnostics import Verdict
from gesturesmith.instruments.base import Instrument, Tube
from gesturesmith.judge.gesture import judge
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint, make
from gesturesmith.model.move import written
from gesturesmith.model.piece import Passage, PassageItem, Repeat
from gesturesmith.model.realisation import PlayedPoint
from gesturesmith.model.tempo import steady
from gesturesmith.realise.in_force import pitched_by
from gesturesmith.realise.trills import above, second_cents
from gesturesmith.rules.base import Case, PassageCase
from gesturesmith.rules.shared.account import account, rest_ratio
from gesturesmith.units import KeySignature, Spelling, chromatic, spell, spell_ladder
from gesturesmith.values import frozen

_MAX_NOTES = 12  # in a preparation; more would not be a small step before a line
_REST_STEP_S = 5  # nobody times rests to the second
_FALLS = (0, 1, 2, 3)  # semitones by which the warm-up moves down, bar by bar
_TEMPO = Fraction(60)
_BAR = 4  # beats, in the warm-up
_WARM = (2, 3, 4)  # the lower of two slurred partials: a fifth, a fourth or a major third apart


@frozen(kw_only=True)
class Preparation:
    """Plain notes to play before a line.

    notes   written names, in order
    tube    the fingering that gives them all, or ""
    """

    notes: tuple[Spelling, ...]
    tube: str = ""


def barred(
    cases: tuple[Case, ...], meter: tuple[int, int] | None, times: int, *, key: KeySignature | None = None
) -> PassageCase:
    """Gestures of one tempo as a line: a rest fills each one's last bar, and the whole is played `times` times.

    key   its written key, or None
    """
    first = cases[0].gesture
    meter = None if any(case.gesture.in_seconds for case in cases) else meter
    items: list[PassageItem] = []
    played: list[Case | None] = []
    at = Fraction(0)
    for case in cases:
        gesture = case.gesture
        items.append(
            PassageItem(at=at, beats=gesture.beats, gesture=gesture, played=gesture.name, span=gesture.span)
        )
        played.append(case)
        at += gesture.beats
        rest = -at % Fraction(4 * meter[0], meter[1]) if meter is not None else 0
        if rest:
            items.append(PassageItem(at=at, beats=Fraction(rest), gesture=None, played="", span=gesture.span))
            played.append(None)
            at += rest
    passage = Passage(
        name=first.name,
        title=None,
        items=tuple(items),
        repeats=(Repeat(start=Fraction(0), end=at, times=times),) if times > 1 else (),
        tempo_map=steady(first.tempo),
        tempo_text=None,
        counted=None if first.beat == 1 else first.beat,
        meter=meter,
        key=key.transposed(first.instrument.sounding) if key is not None else None,
        span=first.span,
        spans={},
    )
    return PassageCase(passage=passage, cases=tuple(played))


def rest_s(line: PassageCase) -> int:
    """Seconds to rest after a line, in steps of five: until its effort is paid back."""
    owed = 0.0
    for _, owed, _ in account(line):  # noqa: B007  # what is owed at the end
        pass
    return _REST_STEP_S * max(1, math.ceil(owed / rest_ratio(line) / _REST_STEP_S))


def preparation(case: Case) -> Preparation | None:
    """The plain notes of a line, or the partials its sweep passes; None if the technique has no such step."""
    played = case.realisation
    if not any(
        t.path != "none" or t.trill or t.bell_hand or t.tone == "needs" or t.layer.startswith("edge")
        for t in case.techniques
    ):
        return None
    if played.partials and played.tube is not None:
        tube = played.tube
        own = {name.pitch_cents: name for name in written(case.gesture)}
        ladder = harmonics(case.instrument, tube, max(played.partials))
        swept = [ladder[n - 1] for n in played.partials]
        return _prepared([own.get(name.pitch_cents, name) for name in swept], tube.name)
    notes: list[Spelling] = []
    by_index = {p.index: p for p in played.points}
    for index, point in enumerate(case.gesture.points):
        if point.kind == "silence":
            continue
        if point.pitch is None or pitched_by(point.techniques) == "none":
            return None
        notes.append(point.pitch.written)
        second = _second(case, by_index.get(index), point.pitch.written)
        if second is not None:
            notes.append(second)
    return _prepared(notes, "")


def _prepared(notes: list[Spelling], tube: str) -> Preparation | None:
    row = [note for n, note in enumerate(notes) if n == 0 or note != notes[n - 1]]
    return Preparation(notes=tuple(row), tube=tube) if 0 < len(row) <= _MAX_NOTES else None


def _nearest(instrument: Instrument, sounding_cents: float) -> int:
    """The written semitone nearest to a sounding pitch, cents above C-1."""
    return 100 * round((sounding_cents - float(instrument.sounding.cents)) / 100)


def _written(instrument: Instrument, sounding_cents: float) -> Spelling:
    """Its usual name."""
    return spell(_nearest(instrument, sounding_cents))


def harmonics(instrument: Instrument, tube: Tube, highest: int) -> tuple[Spelling, ...]:
    """The written names of a tube's partials from the first up, as on a chart."""
    heard = (tube.fundamental_cents + partial_cents(n) for n in range(1, highest + 1))
    return spell_ladder([_nearest(instrument, cents) for cents in heard])


def _second(case: Case, played: PlayedPoint | None, note: Spelling) -> Spelling | None:
    """The second note of a trill or shake, if different, with the name that its sign in the line has."""
    if played is None or played.asked_cents is None:
        return None
    found = (second_cents(t.trill, played) for t in case.techniques)
    second = next((cents for cents in found if cents is not None), None)
    return None if second is None else above(note, round((second - float(played.asked_cents)) / 100))


def warm_up(instrument: Instrument) -> PassageCase | None:
    """Soft slurs between two partials of the lower middle register, a semitone lower in each bar; with a single
    tube, up its partials. None if the checker does not approve.
    """
    first = instrument.sides[0].fundamental_cents
    middle = instrument.register("middle") or instrument.registers[0]
    aim = middle.low.pitch_cents + instrument.sounding.cents
    # A single tube has to go up, and the seventh partial is out of tune.
    single = len(instrument.tubes) == 1
    lowest = _WARM[:-1] if single else _WARM
    n = min(lowest, key=lambda k: abs(first + (partial_cents(k) + partial_cents(k + 1)) / 2 - float(aim)))
    names = [_written(instrument, first + partial_cents(k)) for k in range(n, n + len(_FALLS))]
    if single:
        return _slurs(instrument, list(pairwise(names)))
    low, high = names[:2]
    size = round((high.pitch_cents - low.pitch_cents) / 100)
    lower = [spell(low.pitch_cents - 100 * fall) for fall in _FALLS]
    return _slurs(instrument, [(name, name.transposed(chromatic(size))) for name in lower])


def _slurs(instrument: Instrument, rows: list[tuple[Spelling, Spelling]]) -> PassageCase | None:
    """A passage of slurs up and down again, one a bar; None if any is not playable."""
    cases = []
    for number, (low, high) in enumerate(rows):
        points = (
            NewPoint(pitch=low),
            NewPoint(pitch=high, at=Fraction(1), line="slur"),
            NewPoint(pitch=low, at=Fraction(2), line="slur"),
        )
        level = (NewLevel(level="mp"),) if number == 0 else ()
        new = NewGesture(
            instrument=instrument,
            points=points,
            name=f"w{number}",
            tempo=instrument.student.in_reach(_TEMPO) if instrument.student is not None else _TEMPO,
            lasts=Fraction(_BAR),
            dynamics=level,
        )
        gesture, _ = make(new)
        judged = judge(gesture) if gesture is not None else None
        if judged is None or judged.verdict is not Verdict.PLAYABLE:
            return None
        cases.append(judged.case)
    line = barred(tuple(cases), (_BAR, 4), 1)
    return replace(line, passage=replace(line.passage, name="warm-up"))
