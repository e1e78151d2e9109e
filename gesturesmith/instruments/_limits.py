"""Limits of every brass instrument: the tongue, the ear, the lip, the breath, the voice.

Limits that depend on the instrument (hand, stopped notes, pedal notes, special readings) are in its file.
"""

from __future__ import annotations

from gesturesmith.evidence import DERIVED, HOUSE, MEMORY, PRACTICE, PUBLISHED, Limit, Sourced
from gesturesmith.instruments.base import Register

_TONGUING_PAGE = "thecontemporaryhorn.com, Tonguing: not faster than sixteenths at 100 to 110"
_TUBA_PAGE = (
    "contemporarytuba.com/tonguing: single 9 to 10 a second, double and triple 12 and more; so do trumpeters"
)
_TWO_STROKES = (
    "two strokes in turn: twice the fastest single tonguing, 9 to 10 a second (contemporarytuba.com/tonguing)"
)
_TAPS = (
    "the second valve goes down twice in five chromatic notes; a finger taps 5 to 7 times a second, the world's "
    "fastest drummer 10 times (Neuroscience Letters 2009, doi 10.1016/j.neulet.2009.04.055)"
)
_BENDS = "from G down to F# is a daily exercise on the trumpet (trumpetmaster.com); the curve is ours"
_BENDS_UP = "bent up it stays short of a semitone before the lip jumps (trumpetmaster.com); the number is ours"
_PLAIN = "plain single tonguing: up to 10"
_BENDS_WIDEST = "common practice: about a third, at the bottom perhaps a fourth"
_BENDS_UP_WIDEST = "thecontemporaryhorn.com, Demi-pistons: a correction of up to a semitone, the widest reading"
_FLOWS = (
    "our working values; J. Wolfe, UNSW, gives a mean of 0.1 to 1 L/s, A. Jacobs 2.3 to 2.7 for a loud low note "
    "of the tuba and 0.1 on the trumpet"
)


def _lower(page: str) -> str:
    return f"{page}; slower in the low register, where the sound takes longer to form: the number is ours"


def tonguing(registers: tuple[Register, ...]) -> dict[str, Limit]:
    """Attacks per second: single, double, triple, split and slap, by register; and how much faster a burst can
    be."""
    limits: dict[str, Limit] = {}
    single_end = Sourced(10.0, PRACTICE, _TUBA_PAGE)
    many_end = Sourced(20.0, PRACTICE, _TWO_STROKES)
    run_end = Sourced(25.0, DERIVED, _TAPS)
    for register in registers:
        low = register.name == "low"
        single = (
            Sourced(5.5, HOUSE, _lower(_TONGUING_PAGE))
            if low
            else Sourced(round(110 * 4 / 60, 3), PRACTICE, _TONGUING_PAGE)
        )
        many = Sourced(9.0, HOUSE, _lower(_TUBA_PAGE)) if low else Sourced(12.0, PRACTICE, _TUBA_PAGE)
        split = Sourced(3.0 if low else 4.0, HOUSE, "each split attack has to be prepared")
        slap = Sourced(4.0 if low else 5.0, HOUSE, "the tongue has to seal the mouthpiece again")
        limits |= {
            f"single_tongue_per_s_{register.name}": Limit(single, single_end, "attacks a second"),
            f"double_tongue_per_s_{register.name}": Limit(many, many_end, "attacks a second"),
            f"triple_tongue_per_s_{register.name}": Limit(many, many_end, "attacks a second"),
            f"split_attack_per_s_{register.name}": Limit(split, single_end, "attacks a second", _PLAIN),
            f"slap_per_s_{register.name}": Limit(slap, single_end, "attacks a second", _PLAIN),
            f"chromatic_per_s_{register.name}": Limit(
                Sourced(8.0 if low else 12.0, HOUSE, "fast runs of valves or slide"),
                run_end,
                "notes a second",
            ),
        }
    limits["burst_extra"] = Limit(
        Sourced(
            0.5,
            HOUSE,
            "three attacks can be half as quick again as what is kept up, five a sixth; our curve: a trombonist's "
            "own is sixteenths at 120 for about eight notes (trombonechat.com)",
        ),
        side="none",
    )
    return limits


def bends(registers: tuple[Register, ...]) -> dict[str, Limit]:
    """Widest lip bends: down from about a third at the bottom to a quarter tone at the top, up only a little.

    The values are for the middle of each register, with linear interpolation between them (`realise.curve`). The
    partial that is played sets a bound of its own: beyond its neighbour the lip has left the note.
    """
    down = {"low": 350, "middle": 200, "high": 100, "top": 50}
    up = {"low": 45, "middle": 40, "high": 30, "top": 20}
    limits = {}
    for register in registers:
        name = register.name
        widest = Sourced(500 if name == "low" else 400, PRACTICE, _BENDS_WIDEST)
        limits[f"bend_down_{name}"] = Limit(Sourced(down[name], HOUSE, _BENDS), widest, "cents")
        limits[f"bend_up_{name}"] = Limit(
            Sourced(up[name], HOUSE, _BENDS_UP), Sourced(100, PRACTICE, _BENDS_UP_WIDEST), "cents"
        )
    return limits


def beyond_sources(cents: int) -> dict[str, Limit]:
    """How far beyond the notes of any source a pitch is refused: players' advice is not a measurement."""
    source = "refused only this far beyond the notes any source gives; it only makes the checker milder"
    return {"range_far_cents": Limit(Sourced(cents, HOUSE, source), None, "cents", side="none")}


def breath(registers: tuple[Register, ...], scale: float = 1.0) -> dict[str, Limit]:
    """Air for a phrase, and the flow for each register and level; `scale` multiplies the horn's flows."""
    flows = {
        "low": (0.20, 0.35, 0.80),
        "middle": (0.12, 0.20, 0.45),
        "high": (0.10, 0.15, 0.30),
        "top": (0.10, 0.15, 0.30),
    }
    limits = {
        "breath_litres": Limit(
            Sourced(3.0, MEMORY, "vital capacity 3 to 6 L, of which 60 to 80 per cent is comfortably used"),
            Sourced(7.0, PRACTICE, "A. Jacobs, with a spirometer: players of 2 1/3, 6 2/3 and 7 L"),
            "L",
        ),
        "breath_from_note_s": Limit(
            Sourced(0.4, HOUSE, "a quick breath takes this much from the end of a note, unless a slur leaves it"),
            None,
            "s",
            side="none",
        ),
        "breath_flow_least": Limit(
            Sourced(0.1, PRACTICE, "J. Wolfe, UNSW: mean flow in wind playing 0.1 to 1 L/s"),
            Sourced(0.1, PRACTICE, "J. Wolfe, UNSW: mean flow in wind playing 0.1 to 1 L/s"),
            "L/s",
            side="none",
        ),
    }
    for register in registers:
        for level, flow in zip(("pp", "mf", "ff"), flows[register.name], strict=True):
            value = Sourced(round(flow * scale, 3), HOUSE, _FLOWS)
            limits[f"breath_flow_{register.name}_{level}"] = Limit(value, None, "L/s", side="none")
    return limits


def stamina(registers: tuple[Register, ...]) -> dict[str, Limit]:
    """How a passage tires: effort per second by register (middle at mf is 1), and what rest pays back."""
    effort = {"low": 0.8, "middle": 1.0, "high": 1.6, "top": 2.5}
    limits = {
        f"effort_{r.name}": Limit(
            Sourced(
                effort[r.name],
                HOUSE,
                "the pressure that starts a note is about proportional to its frequency (Fletcher and Tarnopolsky, "
                "JASA 105, 1999), and the lip is pressed harder (Barbenel, Kenny and Davies, 1988); the curve is "
                "ours",
            ),
            None,
            "",
            side="none",
        )
        for r in registers
    }
    limits["effort_reserve_s"] = Limit(
        Sourced(600.0, PRACTICE, "Pfund, quoted by Buckner, hsutrumpets.com: 10 minutes on, 10 minutes off"),
        None,
        "s",
    )
    limits["effort_louder"] = Limit(
        Sourced(
            0.25,
            HOUSE,
            "twice the pressure gives 15 dB (Fletcher and Tarnopolsky, JASA 105, 1999): a level of 5 dB takes a "
            "quarter more; that all effort follows it is ours",
        ),
        None,
        "",
        side="none",
    )
    limits["force_reserve_s"] = Limit(
        Sourced(
            30.0,
            HOUSE,
            "a minute of ff in the middle register, half a minute in the high one; johnfreemantrumpet.com calls "
            "30 to 60 s without a break short endurance",
        ),
        None,
        "s",
    )
    limits["force_of_height"] = Limit(
        Sourced(0.25, HOUSE, "height at mf wears the lip down a quarter as fast as it tires over a whole piece"),
        None,
        "",
        side="none",
    )
    limits["rest_ratio"] = Limit(
        Sourced(1.0, PRACTICE, "S. Wright, endurance sheet: rest as much as you play"),
        None,
        "",
        side="none",
    )
    limits["softest_top"] = Limit(
        Sourced(
            "p", HOUSE, "each pitch needs a least pressure to start (Kruger, McLean and Kruger): the level is ours"
        ),
        side="softer",
    )
    limits["loudest_low"] = Limit(
        Sourced("ff", HOUSE, "the lowest octave is weak (orchestrationonline.com)"), side="louder"
    )
    return limits


def ear_and_lip() -> dict[str, Limit]:
    """Tuning, response, flutter, glissando, singing: the same for all brass."""
    fifteen = Sourced(
        15,
        HOUSE,
        "two trumpeters missed by 4.9 cents, SD 6.5 (Music Perception 20/4, 2003); twice that is still in tune",
    )
    return {
        "in_tune_cents": Limit(fifteen, None, "cents"),
        "lip_correction_cents": Limit(
            Sourced(50, PRACTICE, "thecontemporaryhorn.com, Demi-pistons: the lip corrects about a quarter tone"),
            Sourced(
                100,
                PRACTICE,
                "thecontemporaryhorn.com, Demi-pistons: with half valves up to a semitone, the widest reading",
            ),
            "cents",
            "at the very most 100",
        ),
        "lip_correction_up_cents": Limit(
            Sourced(35, HOUSE, _BENDS_UP),
            Sourced(
                100,
                PRACTICE,
                "thecontemporaryhorn.com, Demi-pistons: with half valves up to a semitone, either way; the widest",
            ),
            "cents",
            "at the very most 100",
        ),
        "half_valve_per_s": Limit(
            Sourced(4.0, HOUSE, "thecontemporaryhorn.com: vague centres, avoid fast rhythms; the number is ours"),
            None,
            "notes a second",
        ),
        "response_periods": Limit(
            Sourced(6, MEMORY, "Doughty and Garner, J. Exp. Psychol. 37 (1947): tone pitch after 6 periods, +-3"),
            Sourced(
                3,
                PUBLISHED,
                "just audible tonality, Chalmers publ. 141752: 3.0 to 3.5 periods at 150 Hz; not lower down",
            ),
            "periods",
            side="below",
        ),
        "harmonic_gliss_exact_cents": Limit(
            Sourced(35, HOUSE, "the lip brings both ends into tune, as far as it lifts a note"), None, "cents"
        ),
        "harmonic_gliss_about_cents": Limit(
            Sourced(100, HOUSE, "an approximate end may be a semitone off: the density of the sweep matters more"),
            None,
            "cents",
        ),
        "harmonic_gliss_min_partials": Limit(
            Sourced(3, DERIVED, "two partials have nothing between them to sweep through"),
            Sourced(3, DERIVED, "two partials have nothing between them to sweep through"),
            "partials",
            side="below",
        ),
        "harmonic_gliss_reads_partials": Limit(
            Sourced(
                7, HOUSE, "an octave from partial 6 up is heard as a glissando; fewer partials as so many notes"
            ),
            None,
            "partials",
            side="below",
        ),
        "harmonic_gliss_arpeggio_partial": Limit(
            Sourced(6, HOUSE, "below partial 6 the steps are thirds and wider: a horn-call arpeggio"),
            None,
            "partial",
            side="below",
        ),
        "lip_gliss_cents": Limit(
            Sourced(700, HOUSE, "beyond a fifth the lip cannot hide the partials it crosses"), None, "cents"
        ),
        "split_tone_lowest_partial": Limit(
            Sourced(3, HOUSE, "contemporarytuba.com: between distant partials the tone will not hold, it jumps"),
            None,
            "partial",
            side="below",
        ),
        "sing_cents": Limit(
            Sourced(
                (4500, 7400),
                PUBLISHED,
                "abjad 3.31: men's voices, baritone from A2, tenor up to D5; not every player has them",
            ),
            Sourced((4000, 8800), PUBLISHED, "abjad 3.31: bass E2 to soprano E6, the widest of the voices"),
            "cents",
            side="outside",
        ),
        "forte_piano_s": Limit(
            Sourced(0.3, HOUSE, "a loud stroke and a soft rest of the note are both to be heard"),
            None,
            "s",
            side="below",
        ),
        "grace_leap_cents": Limit(
            Sourced(1200, HOUSE, "beyond an octave the lip needs a moment to find the note"),
            None,
            "cents",
        ),
        "mute_change_s": Limit(
            Sourced(3.0, MEMORY, "straight, stopping, harmon and practice mutes: a few seconds, with one at hand"),
            None,
            "s",
            side="below",
        ),
        "mute_change_cup_s": Limit(
            Sourced(5.0, PRACTICE, "bnelsonmusic.wordpress.com: at least five seconds before and after"),
            None,
            "s",
            side="below",
        ),
        "mute_change_bucket_s": Limit(
            Sourced(5.0, HOUSE, "as a cup mute; one with clips takes longer"), None, "s", side="below"
        ),
        "mute_change_plunger_s": Limit(
            Sourced(0.5, HOUSE, "it is held in the hand and has only to be moved away"), None, "s", side="below"
        ),
        "cover_change_s": Limit(
            Sourced(
                0.12,
                HOUSE,
                "from note to note: a plunger or hand goes to and fro on sixteenths at 120; faster it flaps freely",
            ),
            None,
            "s",
            side="below",
        ),
        "stem_change_s": Limit(
            Sourced(
                2.0, HOUSE, "a hand leaves the instrument, pulls or pushes the stem of the mute and comes back"
            ),
            None,
            "s",
            side="below",
        ),
        "stem_slide_s": Limit(
            Sourced(1.0, HOUSE, "an even pull with one hand while the other holds and fingers"),
            None,
            "s",
            side="below",
        ),
        "tongue_change_s": Limit(
            Sourced(0.3, HOUSE, "a breath between two kinds of tonguing"), None, "s", side="below"
        ),
        "trill_other_cents": Limit(
            Sourced(35, HOUSE, "two fingerings further apart than this are heard as two pitches"), None, "cents"
        ),
    } | reading()


def reading() -> dict[str, Limit]:
    """What a player can read: the same for every instrument."""
    return {
        "points_per_s": Limit(
            Sourced(8.0, HOUSE, "a shape is read by its turning points, hardly more than sixteenths at 120"),
            None,
            "points a second",
        ),
        "band_narrowest_cents": Limit(
            Sourced(300, HOUSE, "low, middle and high need different places on the staff"),
            None,
            "cents",
            side="below",
        ),
        "text_longest": Limit(
            Sourced(48, HOUSE, "about the width of a line of music at staff size 7 mm"), None, ""
        ),
        "tuplet_largest": Limit(
            Sourced(13, HOUSE, "what players are still asked to count in one bracket"), None, ""
        ),
        "quarter_tones_per_s": Limit(
            Sourced(4.0, HOUSE, "those that the lip must correct: about half the rate of a plain run"),
            None,
            "changes a second",
        ),
    }
