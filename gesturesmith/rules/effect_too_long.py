"""A technique goes on longer than is good for the player.

Checks  the time each technique is kept up, in a gesture and from one to the next in a passage, against the longest
        possible without a break. Each second without it pays back as much as a second of rest; growl,
        flutter-tonguing and whatever else tires count for more above the middle of the high register
Why     growls, flutter-tonguing, shakes and the like tire lip, tongue or throat far sooner than plain playing, and
        four of four seconds in a row are one of sixteen
Fires
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      technique: growl
      contour: C4
      lasts: 12 beats
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      technique: growl
      contour: C4
      lasts: 4 beats
    passage b
      play: a, rest 4, a, rest 4, a
Fix     shorten it, or break it with a rest
"""

from collections.abc import Callable, Iterator
from fractions import Fraction

from gesturesmith.diagnostics import Number
from gesturesmith.diagnostics.changes import Fix, LengthChange
from gesturesmith.evidence import Limit
from gesturesmith.rules.base import Case, Finding, PassageCase, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.account import (
    Moment,
    Spell,
    bar_words,
    first_spell,
    moments,
    moments_of,
    pays_back,
    rest_ratio,
    tiring_height,
)
from gesturesmith.rules.shared.limits import Excess, above, of_technique
from gesturesmith.rules.shared.reading import apart, in_force, plain
from gesturesmith.techniques.base import Technique


def _takes(technique: Technique) -> Callable[[Moment], float | None]:
    def takes(moment: Moment) -> float | None:
        point, case = moment.point, moment.case
        if point is None or case is None or not moment.sounds or technique not in point.techniques:
            return None
        return tiring_height(case, technique, point)

    return takes


def _said(technique: Technique, limit: Limit, spell: Spell, where: str) -> tuple[str, Excess, Number] | None:
    """What is said of a stretch: its time against the longest at its height, or with its pauses what it is like."""
    excess = above(limit, spell.owed)
    if excess is None:
        return None
    title = technique.title["en"].lower()
    if spell.paused:
        said = apart(spell.owed, excess.limit)
        text = (
            f"{where}{plain(spell.sounded)} s of {title} with pauses of {plain(spell.paused)} s in all tire like "
            f"{said} s at once; about {plain(excess.limit)} s is possible without a break"
        )
        return text, excess, Number(name="time", value=spell.owed, limit=excess.limit, unit="s")
    longest = excess.limit * spell.sounded / spell.owed
    here = "" if longest == excess.limit else " so high"
    text = (
        f"{where}{apart(spell.sounded, longest)} s of {title}{here}; about {plain(longest)} s is possible "
        "without a break"
    )
    return text, excess, Number(name="time", value=spell.sounded, limit=longest, unit="s")


def _in_passage(passage: PassageCase) -> Iterator[Finding]:
    played = [case for case in passage.cases if case is not None]
    techniques = {t.key: t for case in {id(c): c for c in played}.values() for t in in_force(case)}
    instrument = played[0].instrument if played else None
    found = ((t, of_technique(instrument, t, "longest_s")) for t in techniques.values() if instrument is not None)
    longest = [(technique, limit) for technique, limit in found if limit is not None]
    if not longest:
        return
    everything, ratio = list(moments(passage)), rest_ratio(passage)
    for technique, limit in longest:
        spell = first_spell(everything, _takes(technique), float(limit.narrow.value), ratio)
        item = spell.over.item if spell is not None and spell.carried else None
        if spell is None or item is None:
            continue
        said = _said(technique, limit, spell, f"from one item to the next{bar_words(passage, item)}, ")
        if said is not None:
            text, excess, number = said
            yield Finding(
                span=item.span,
                where=item.played,
                text=text,
                hint="a rest as long as what is played pays it back",
                evidence=excess.evidence,
                severity=excess.severity,
                numbers=(number,),
            )


@rule("GS603", "effect-too-long", severity="caution", passage=_in_passage, only=("limit:longest_s",))
def check(case: Case) -> Iterator[Finding]:
    for technique in in_force(case):
        limit = of_technique(case.instrument, technique, "longest_s")
        if limit is None:
            continue
        spell = first_spell(
            moments_of(case), _takes(technique), float(limit.narrow.value), pays_back(case.instrument)
        )
        said = _said(technique, limit, spell, "") if spell is not None else None
        if spell is None or spell.begin.point is None or said is None:
            continue
        text, excess, number = said
        yield Finding(
            span=spell.begin.point.span,
            text=text,
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(number,),
            proposed_fixes=(*_shorter(case, spell, excess.limit), *fixes.without(case, technique.key)),
        )


def _shorter(case: Case, spell: Spell, limit: float) -> tuple[Fix, ...]:
    """A length in which the limit is kept: scaled, or with pauses shorter by what is too much."""
    gesture = case.gesture
    seconds = float(gesture.seconds)
    seconds = seconds - (spell.owed - limit) if spell.paused else seconds * limit / spell.owed
    if seconds <= 0:
        return ()
    if gesture.in_seconds:
        return ((LengthChange(Fraction(plain(seconds)), True),),)
    whole = int(seconds * float(gesture.tempo / gesture.beat) / 60 + 1e-9)
    return ((LengthChange(Fraction(whole), False),),) if whole else ()
