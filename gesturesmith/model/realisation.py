"""How the instrument plays a gesture: worked out before the rules, and used by everything after them."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.instruments.base import Tube
from gesturesmith.kinds import Correction, Tonguing
from gesturesmith.techniques.base import Technique
from gesturesmith.values import frozen


@frozen(kw_only=True)
class PlayedPoint:
    """How one sounding point is played.

    index         of the point in the gesture's contour
    asked_cents   the sounding pitch asked for; None if the technique has no pitch
    tube          the tube it is played on; None if none is needed or none gives it
    partial       its number, 0 for none
    error_cents   pitch of that partial minus the pitch asked for, before any correction
    correction    what corrects the error: "" | "lip" | "slide" (a valve slide is drawn) | "hand"
    standard      whether this is the standard chart's fingering for the pitch; without valves, an open note
    given         whether the composer asked for this fingering
    other         the second fingering of a trill, else None
    trill_cents   how far above the second note of a trill is asked for; None if it is left open
    fingered_cents  the sounding pitch the player fingers if the hand changes it (stopped), else None
    """

    index: int
    at: Fraction
    asked_cents: Fraction | None
    tube: Tube | None
    partial: int = 0
    error_cents: float = 0.0
    correction: Correction = ""
    standard: bool = True
    given: bool = False
    other: Tube | None = None
    fingered_cents: float | None = None
    trill_cents: float | None = None


@frozen(kw_only=True)
class Realisation:
    """How a gesture is played.

    techniques   as played: the gesture's own, or its fallback
    points       one for each sounding point, in order
    tube         the one tube of a held or swept gesture, else None
    partials     the partials a harmonic glissando passes, in order, on the contour's first slide
    starts_cents, lands_cents   where a sweep actually starts and lands, sounding
    pattern      the tubes of the chromatic notes a fingered glissando or run passes, in order, on the first slide
    breaks       indices of contour points the slide cannot reach as its technique asks: on its partial, on its
                 partial with the trigger, against the line
    print_tube   whether the player must be told the tube (not the standard fingering)
    used_fallback   the fallback that replaced the asked technique, or ""
    tonguing     what the player takes where none is named: "double" where single tonguing is too slow
    """

    techniques: tuple[Technique, ...]
    points: tuple[PlayedPoint, ...] = ()
    tube: Tube | None = None
    partials: tuple[int, ...] = ()
    starts_cents: float | None = None
    lands_cents: float | None = None
    pattern: tuple[Tube, ...] = ()
    breaks: tuple[int, ...] = ()
    print_tube: bool = False
    used_fallback: str = ""
    tonguing: Tonguing = ""
