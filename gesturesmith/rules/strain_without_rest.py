"""Loud or high playing goes on too long without a rest.

Checks  what each second takes beyond plain playing in the middle register, by level, techniques and register, in a
        gesture and from one to the next in a passage; each second of rest pays back a second of it
Why     full force wears the lip down within a minute, long before a whole piece does: the lip swells, and what
        follows no longer speaks. Breaths between notes are no rest
Fires
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      contour: C5
      lasts: 4 beats
      dynamics: ff
    passage b
      play: a
      repeat: 16
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      contour: C5
      lasts: 4 beats
      dynamics: ff
    passage b
      play: a, a, a, rest 12
      repeat: 5
Fix     write rests, as long as what is played, or some of it softer or lower
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.evidence import Limit
from gesturesmith.rules.base import Case, Finding, PassageCase, rule
from gesturesmith.rules.shared.account import (
    Moment,
    Spell,
    bar_words,
    first_spell,
    force,
    moments,
    moments_of,
    most_force,
    pays_back,
    rest_ratio,
)
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import apart, plain


def _takes(moment: Moment) -> float | None:
    if moment.point is None or moment.case is None or not moment.sounds:
        return None
    return force(moment.case, moment.point)


def _said(limit: Limit, spell: Spell) -> tuple[str, Number]:
    """The time of loud or high playing, and how long it could be."""
    longest = spell.sounded * limit.narrow.value / spell.owed
    pauses = f" with only {plain(spell.paused)} s of rest" if spell.paused else " without a rest"
    text = (
        f"{apart(spell.sounded, longest)} s so loud or high{pauses}; the lip lasts about {plain(longest)} s of that"
    )
    return text, Number(name="time", value=spell.sounded, limit=longest, unit="s")


def _in_passage(passage: PassageCase) -> Iterator[Finding]:
    case = next((c for c in passage.cases if c is not None), None)
    limit = case.instrument.limits.get("force_reserve_s") if case is not None else None
    if case is None or limit is None:
        return
    known: dict[int, float | None] = {}

    def takes(moment: Moment) -> float | None:
        key = id(moment.point)
        if key not in known:
            known[key] = _takes(moment)
        return known[key]

    spell = first_spell(moments(passage), takes, float(limit.narrow.value), rest_ratio(passage))
    item = spell.over.item if spell is not None and spell.carried else None
    if spell is None or item is None:
        return
    text, number = _said(limit, spell)
    yield Finding(
        span=item.span,
        where=item.played,
        text=f"up to here{bar_words(passage, item)} {text}",
        hint="a rest as long as what is played pays it back",
        evidence=limit.narrow,
        numbers=(number,),
    )


@rule("GS610", "strain-without-rest", severity="caution", passage=_in_passage)
def check(case: Case) -> Iterator[Finding]:
    limit = case.instrument.limits.get("force_reserve_s")
    seconds = case.gesture.in_time((case.gesture.beats,))[0]
    if limit is None or most_force(case) * seconds <= limit.narrow.value:
        return
    spell = first_spell(moments_of(case), _takes, float(limit.narrow.value), pays_back(case.instrument))
    if spell is None or spell.over.point is None or above(limit, spell.owed) is None:
        return
    text, number = _said(limit, spell)
    yield Finding(span=spell.over.point.span, text=text, evidence=limit.narrow, numbers=(number,))
