"""What makes a gesture hard: the quantities that make up the difficulty, each with its comfortable range.

Every number here is our own judgement, unless its evidence says otherwise; it ranks gestures and never judges one.
If the checker has a limit for the instrument or technique, that limit, with its own evidence, is the point of care,
and `ease` is a multiple of it.

    share = 0                     up to the end of the comfortable range
    share = 1/2                   at the point of care, where the checker begins to warn
    share = 1                     as far again beyond it, or more
    difficulty = 100 (1 - product of (1 - weight times share) over all quantities)

No share decreases as its quantity moves away from comfort, and then neither does the difficulty.
"""

from __future__ import annotations

from gesturesmith.evidence import HOUSE, Sourced
from gesturesmith.kinds import DemandUnit
from gesturesmith.values import frozen


def _ours(value: float, why: str) -> Sourced[float]:
    return Sourced(value, HOUSE, why)


_HALF = _ours(0.5, "comfortable up to half of what the checker warns at")
_THIRD = _ours(1 / 3, "a third of that way around the middle register is played without a thought")
_TWICE = _ours(2.0, "comfortable down to twice what the checker warns at")


@frozen(kw_only=True)
class Quantity:
    """One quantity.

    measures   what is measured, and where in a gesture
    unit       of its values
    ease       the end of the comfortable range: a value, or a multiple of the limit
    care       the value at which the share is one half; None if a limit gives it
    limits     names of the limits that give it: of the instrument (REG is the register) or of the technique
    weight     the largest part of 100 it can contribute by itself, as a fraction of 1
    """

    name: str
    measures: str
    unit: DemandUnit
    ease: Sourced[float]
    care: Sourced[float] | None = None
    limits: str = ""
    weight: Sourced[float]


QUANTITIES: tuple[Quantity, ...] = (
    Quantity(
        name="height",
        measures="the highest note, above the middle register",
        unit="semitones",
        ease=_THIRD,
        limits="three fifths of the way to the top of the widest range",
        weight=_ours(0.6, "high notes are the first to tire and to fail"),
    ),
    Quantity(
        name="depth",
        measures="the lowest note, below the middle register",
        unit="semitones",
        ease=_THIRD,
        limits="three fifths of the way to the bottom of the widest range",
        weight=_ours(0.45, "low notes speak late, but tire less than high ones"),
    ),
    Quantity(
        name="level",
        measures="the level furthest from mp and mf, or from the levels a technique needs; niente counts as ppp",
        unit="levels",
        ease=_ours(0.0, "no level away from them"),
        care=_ours(2.0, "pp and ff need practice"),
        weight=_ours(0.4, "soft notes may not speak, loud ones tire"),
    ),
    Quantity(
        name="breath",
        measures="the air of the longest phrase, from one place to breathe to the next, also between items of a "
        "passage; the air saved by soft and high playing is not deducted",
        unit="L",
        ease=_ours(2 / 3, "two thirds of a breath leave time to prepare the next"),
        limits="breath_litres, with breath_flow_REG_LEVEL and the technique's flow",
        weight=_ours(0.6, "a phrase longer than the breath falls apart"),
    ),
    Quantity(
        name="effort",
        measures="the total effort, as seconds of plain playing; for a passage, less what its rests restore",
        unit="s",
        ease=_ours(0.1, "a tenth of the reserve hardly matters"),
        limits="effort_reserve_s, with effort_REG, effort_louder and the technique's effort",
        weight=_ours(0.6, "a tired lip can fail anywhere"),
    ),
    Quantity(
        name="technique",
        measures="how hard the hardest technique is by itself, 0 to 1",
        unit="of 1",
        ease=_ours(0.0, "plain playing"),
        care=_ours(0.5, "what a player studies for years, or some cannot do"),
        weight=_ours(0.7, "a technique that is not there cannot be made up for by the register"),
    ),
    Quantity(
        name="strain",
        measures="how much the techniques together tire, as a factor on plain playing",
        unit="times plain playing",
        ease=_ours(1.0, "plain playing"),
        care=_ours(1.75, "more than any single technique: two tiring ones at once"),
        weight=_ours(0.6, "what works against the lip must be learnt and kept in practice"),
    ),
    Quantity(
        name="attacks",
        measures="attacks a second, over two in a row",
        unit="a second",
        ease=_HALF,
        limits="single_tongue_per_s_REG and its kin, by the kind of tonguing, the fastest where none is named; the "
        "technique's fastest_per_s",
        weight=_ours(0.7, "a tongue that is too slow cannot be compensated"),
    ),
    Quantity(
        name="notes",
        measures="changes of note a second, slurred or tongued or in a run",
        unit="a second",
        ease=_HALF,
        limits="chromatic_per_s_REG; quarter_tones_per_s, half_valve_per_s where those are played",
        weight=_ours(0.6, "fingers can be trained further than the tongue"),
    ),
    Quantity(
        name="travel",
        measures="positions a second the slide moves between notes",
        unit="a second",
        ease=_HALF,
        limits="slide_positions_per_s",
        weight=_ours(0.5, "a long way in a short time sounds smeared"),
    ),
    Quantity(
        name="response",
        measures="periods of the shortest exact note, none counted higher than the lowest of the middle register",
        unit="periods",
        ease=_TWICE,
        limits="response_periods",
        weight=_ours(0.5, "the note ends when it has hardly begun"),
    ),
    Quantity(
        name="leap",
        measures="the widest step between two notes that no line joins",
        unit="cents",
        ease=_ours(400.0, "a third is easy for the lip"),
        care=_ours(1200.0, "an octave is heard before it is played"),
        weight=_ours(0.4, "the lip has to find the partial without help; octaves are practised daily"),
    ),
    Quantity(
        name="width",
        measures="the widest line, against what its means can span",
        unit="cents",
        ease=_HALF,
        limits="bend_down_REG (for the beginning of a scoop all of it counts), bend_up_REG, lip_gliss_cents, "
        "hand_out_widest_cents, hand_lower_cents",
        weight=_ours(0.55, "the wider the line, the more there is to conceal"),
    ),
    Quantity(
        name="span",
        measures="the widest line of a kind that has no limit of its own",
        unit="cents",
        ease=_ours(500.0, "within a fourth"),
        care=_ours(1900.0, "an octave and a fifth crosses two registers"),
        weight=_ours(0.5, "a line across registers changes the setting of the lip on its way"),
    ),
    Quantity(
        name="speed",
        measures="semitones a second along a line",
        unit="a second",
        ease=_ours(2.0, "slow enough to hear every step"),
        care=_ours(12.0, "as fast as fingers run"),
        weight=_ours(0.4, "a fast line is a gesture of its own, a slow one can be steered"),
    ),
    Quantity(
        name="fingering",
        measures="notes whose fingering is on no chart: quarter tones, and those the composer asks for",
        unit="notes",
        ease=_ours(0.0, "the standard chart is known by heart"),
        care=_ours(4.0, "so many are remembered for one gesture"),
        weight=_ours(0.4, "once learnt, it is only slower"),
    ),
    Quantity(
        name="correction",
        measures="cents to bridge on such a note; on a natural horn, by the hand on what lies between its partials",
        unit="cents",
        ease=_ours(0.3, "of 50 cents: within 15 a fingering counts as in tune"),
        limits="lip_correction_cents, lip_correction_up_cents; half_stopped_lower_cents on a natural horn",
        weight=_ours(0.4, "the ear has to lead, and the tone suffers"),
    ),
    Quantity(
        name="together",
        measures="techniques in force at one time, and the voice as one more",
        unit="techniques",
        ease=_ours(1.0, "one thing at a time"),
        care=_ours(4.0, "lip, tongue, hand and valves all at once"),
        weight=_ours(0.6, "each must continue by itself while the player thinks of another"),
    ),
    Quantity(
        name="changes",
        measures="changes of technique a second",
        unit="a second",
        ease=_ours(0.0, "nothing changes"),
        care=_ours(2.0, "the hand needs half a second"),
        weight=_ours(0.4, "hands and lips must be reset"),
    ),
    Quantity(
        name="points",
        measures="points along lines to read per second",
        unit="a second",
        ease=_HALF,
        limits="points_per_s",
        weight=_ours(0.4, "what is hard to read is hard to play"),
    ),
    Quantity(
        name="hold",
        measures="seconds of a technique without a break",
        unit="s",
        ease=_HALF,
        limits="the technique's longest_s",
        weight=_ours(0.4, "what shakes the lip or shares the breath cannot be sustained"),
    ),
    Quantity(
        name="brevity",
        measures="milliseconds available for a technique to speak",
        unit="ms",
        ease=_TWICE,
        limits="the technique's shortest_ms",
        weight=_ours(0.4, "it has to speak at once"),
    ),
    Quantity(
        name="roll",
        measures="periods of the pitch in one roll of tongue or throat, counted in the same way",
        unit="periods",
        ease=_TWICE,
        limits="the technique's cycle_periods at its fastest cycles_hz",
        weight=_ours(0.4, "roll and tone interfere with each other"),
    ),
)
COMFORTABLE_LEVELS = Sourced(("mp", "mf"), HOUSE, "played without thinking about them")
