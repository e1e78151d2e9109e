"""The second note of a trill."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.acoustics.series import nearest_partial, partial_cents
from gesturesmith.kinds import Trill
from gesturesmith.model.realisation import PlayedPoint
from gesturesmith.units import LETTERS, Spelling, spell

# Cents above at which the second note is sought if nobody says where: between the seconds of a trill; a third.
USUAL_CENTS: dict[Trill, float] = {"above": 150.0, "other": 300.0}
_STEPS = (0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6, 7)  # scale steps, by number of semitones


def second_cents(trill: Trill, played: PlayedPoint) -> float | None:
    """The sounding pitch of the second note of a trill of this kind (as `Technique.trill`), in cents above C-1;
    None if it is the same, or there is none."""
    if played.tube is None or played.asked_cents is None:
        return None
    asked = float(played.asked_cents)
    fingered = (
        played.fingered_cents if played.fingered_cents is not None else asked
    )  # a hand in the bell shifts both notes
    if trill == "neighbour" and played.partial:
        return played.tube.fundamental_cents + partial_cents(played.partial + 1) + asked - fingered
    if trill in ("above", "other") and played.other is not None:
        other = played.other
        second = played.trill_cents
        wanted = fingered + (second if second is not None else USUAL_CENTS[trill])
        n = nearest_partial(wanted, other.fundamental_cents, *other.widest_partials)
        return other.fundamental_cents + partial_cents(n) + asked - fingered
    return None


def above(note: Spelling, semitones: int) -> Spelling:
    """The note this many semitones above, on the interval's own letter if a plain accidental allows."""
    cents = round(note.pitch_cents / 100) * 100 + 100 * semitones
    octave, letter = divmod(LETTERS.index(note.letter) + _STEPS[min(semitones, 12)], 7)
    natural = Spelling(LETTERS[letter], Fraction(0), note.octave + octave)
    alter = Fraction(cents - int(natural.pitch_cents), 100)
    return Spelling(natural.letter, alter, natural.octave) if abs(alter) <= 1 else spell(cents)
