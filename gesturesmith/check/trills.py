"""The second note of a trill."""

from __future__ import annotations

from gesturesmith.acoustics.series import nearest_partial, partial_cents
from gesturesmith.model.realisation import PlayedPoint

_HALF_TONE_ABOVE, _TONE_ABOVE = 100.0, 200.0


def second_cents(trill: str, played: PlayedPoint) -> float | None:
    """The sounding pitch a trill of this kind (as `Technique.trill`) goes to, in cents above C0; None where it is
    the same, or there is none."""
    if played.tube is None or played.asked_cents is None:
        return None
    if trill == "neighbour" and played.partial:
        return played.tube.fundamental_cents + partial_cents(played.partial + 1)
    if trill == "above" and played.other is not None:
        other = played.other
        wanted = float(played.asked_cents) + (_HALF_TONE_ABOVE + _TONE_ABOVE) / 2
        n = nearest_partial(wanted, other.fundamental_cents, *other.widest_partials)
        return other.fundamental_cents + partial_cents(n)
    return None
