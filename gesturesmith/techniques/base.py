"""The definition of a technique: one entry says how it is played, judged, notated and explained."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, field, replace
from functools import cache
from typing import Any, Literal, get_args

from gesturesmith.evidence import DERIVED, HOUSE, Limit, Sourced
from gesturesmith.kinds import (
    AskedHead,
    BellHand,
    Colour,
    Cover,
    EdgeShape,
    Harmonic,
    JoinVerdict,
    Layer,
    LineKind,
    Mute,
    Needs,
    Noise,
    Part,
    Path,
    Pitched,
    ScriptSign,
    ToneNeed,
    Trill,
)
from gesturesmith.values import frozen

# The layers, in the order in which a player thinks of them.
LAYERS: tuple[Layer, ...] = get_args(Layer)
# Layers shown as one group: both edges of a note, and everything the mouth does.
GROUP_OF_LAYER = {
    "edge-in": "edge", "edge-off": "edge", "cover": "bell", "stem": "bell",
    "tone": "mouth", "tongue": "mouth", "voice": "mouth", "lip": "mouth",
}  # fmt: skip

LAYER_WORDS = {
    "none": "none, for the ordinary way of playing",
    "motion": "how the pitch moves",
    "edge-in": "how the note is entered",
    "edge-off": "how the note is left",
    "valves": "what the valves or the slide do",
    "bell": "what is done at the bell",
    "cover": "what covers the bell or the mute",
    "stem": "where the stem of a harmon mute is",
    "tone": "what the tone is made of",
    "tongue": "what the tongue does while a note sounds",
    "voice": "what the throat or the voice does",
    "lip": "what the lips do",
    "attack": "how a note begins",
}

# Parts that do one thing at a time, as the subject of "... cannot ... and ... at the same time".
PART_WORDS: dict[Part, str] = {
    "pitch": "the pitch",
    "beginning": "a note",
    "end": "a note",
    "stroke": "an attack",
    "tonguing": "the tongue",
    "valves": "the valves",
    "fingering": "the fingering",
    "slide": "the slide",
    "tube": "the tube",
    "bell": "the bell",
    "hand": "the hand",
    "stem": "the stem of the mute",
    "mouthpiece": "the mouthpiece",
    "breath": "the breath",
    "lips": "the lips",
    "jaw": "lip and jaw",
    "tongue": "the tongue",
    "throat": "the throat",
    "tone": "the tone",
    "trill": "a note",
    "harmonics": "the harmonics",
}
NEED_WORDS = {
    "hand": "a hand in the bell",
    "valves": "valves to finger with",
    "slide": "a slide",
    "trigger": "a slide with a trigger",
    "valve-slide": "a valve slide that can be moved while playing",
}
# Parts for which a noise without pitch leaves nothing.
_PITCH_PARTS: tuple[Part, ...] = ("pitch", "beginning", "end", "trill")

# How a technique moves the pitch from point to point, for realisation and rules.
#   none      the pitch does not move; each point is a separate note
#   lip       bent or slurred by the lip around a fixed tube
#   hand      lowered by the hand in the bell
#   hand-out  hand out of the bell, smooth slides between close partials high up
#   partials  sweeps the partials of one tube
#   valves    valves move (fluttered or in turn) while the lip follows
#   steps     a fast chromatic run of fingered notes
#   slide     continuous slide on one partial
#   against   continuous slide one way while the lip crosses the partials the other way
#   trigger   continuous slide on one partial, further than it reaches without the trigger
#   half-valve  valves half down: a shifted, vague series
PATHS: tuple[Path, ...] = get_args(Path)

# The ending that cancels everything in force; other endings name their technique.
PLAIN_END = "ord."

# When a technique has other texts: on a slide, on an instrument with only one tube, for a lip movement that goes up
# within its partial, with a line to sing, beside breath without a tone, with its waves drawn, with
# the other note of a trill named.
WHERE = ("slide", "single", "up", "sung", "breath", "waves", "interval")

# The limits a technique may set for any instrument, with their units. Limits that depend on the instrument (attacks
# per second by register, widths of bends) belong to the instrument.
LIMIT_UNITS = {
    "fastest_per_s": "1/s",  # most notes or attacks of this kind per second
    "shortest_ms": "ms",  # shortest note, or whole slide, with which the effect can be heard
    "longest_s": "s",  # longest unbroken stretch before it becomes a strain
    "softest": "level",  # softest level it can be asked for
    "loudest": "level",  # loudest level at which it works
    "registers": "register",  # names of the registers in which it speaks well
    "cycles_hz": "Hz",  # (slowest, fastest) rolls of the tongue or throat per second
    "cycle_periods": "periods",  # periods of the note that one roll must hold
    "waves_per_s": "1/s",  # most waves of a vibrato, trill or shake per second
    "widest_cents": "cents",  # widest step to the second note of a trill or shake
    "drift_cents": "cents",  # largest difference allowed between two fingerings of one pitch
    "narrowest_cents": "cents",  # a slide narrower than this is not heard as one
    "lip_down_cents": "cents",  # how far below its note the lip usually begins
    "room_below_cents": "cents",  # how much of the range it needs below its note
    "room_above_cents": "cents",  # and above
}


# The names for which engraving has a sign, by field of a look.
LOOKS: dict[str, tuple[object, ...]] = {
    "head": get_args(AskedHead),
    "script": ("", *get_args(ScriptSign)),
    "cancel_script": ("", "open"),
    "extent": ("point", "span"),
    "tremolo": (0, 3),
    "edge": ("", *get_args(EdgeShape)),
    "motion": ("", "bend", "hand"),
    "trill": ("", "trill"),
    "sung_head": ("", "diamond"),
}


@frozen(kw_only=True)
class Look:
    """How a technique looks on the page. Words are printed as they are; "" prints nothing.

    head        notehead if the composer leaves it `auto`: auto, x, normal, diamond, triangle, slash
    word        printed above at the first note, and again after a system break or a long rest
    breath_word printed instead of `word` beside breath without a tone ("sing" of "sing + play"); "": the word
    sign        printed at later notes while the word is still in force ("" repeats nothing)
    script      a sign over every note, by name: stopped, half-stopped, double-dots, triple-dots
    cancel      printed where the technique ends and ordinary playing begins ("ord.", "open", "senza sord.")
    over        printed instead of "ord." if another technique continues or begins; "": "non" and the word
    cancel_script  sign over the first note afterwards, by name ("open"); `cancel` is then for where no note has it
    extent      "span" draws a dashed line with a hook from the word to the end; "point" does not
    tremolo     slashes on the stem: 3 for flutter-tonguing
    edge        sign for the edge of a note, by name: scoop, doit, spill, ...
    motion      how a motion is drawn if the contour has one point or detached points: bend, hand
    announce    a mute or the like: its `word` goes into the rest before, as an instruction to change
    line_word   word on the line itself if there is room ("gliss.")
    small_start the first head of an unmeasured gesture is small
    partials    the heads in between are printed on notes pages and sheets only
    trill       "trill" prints the trill sign with its line
    fingering   the fingering row belongs to the sign: printed at every note unless the file says `none`
    sung_head   notehead of a second, sung line
    reason      why it looks like this, with the published practice it follows

    A word may contain `{mute}`, for the name of the gesture's mute in the language of the page.
    """

    head: AskedHead = "auto"
    word: str = ""
    breath_word: str = ""
    sign: str = ""
    script: ScriptSign | Literal[""] = ""
    cancel: str = ""
    over: str = ""
    extent: Literal["point", "span"] = "point"
    tremolo: int = 0
    edge: EdgeShape | Literal[""] = ""
    motion: Literal["", "bend", "hand"] = ""
    announce: bool = False
    line_word: str = ""
    small_start: bool = False
    partials: bool = False
    trill: Literal["", "trill"] = ""
    fingering: bool = False
    cancel_script: Literal["", "open"] = ""
    sung_head: Literal["", "diamond"] = ""
    reason: str = ""

    def __post_init__(self) -> None:
        for name, known in LOOKS.items():
            if getattr(self, name) not in known:
                raise ValueError(f"a look's {name} is {getattr(self, name)!r}; known are {known}")

    @property
    def named_end(self) -> str:
        """Its ending if something else is in force: `non flz.`, like `non vib.` and `non div.` in parts."""
        return self.over or f"non {self.word}" if self.cancel == PLAIN_END else self.cancel

    def labelled(self, label: Label) -> Look:
        """The same look with the words of a label."""
        return replace(self, **{key: word for key, word in asdict(label).items() if word})


@frozen(kw_only=True)
class Label:
    """The words of a look in one language, where players of it have words of their own; "" for what stays as it is,
    such as signs and Italian abbreviations that every player reads. The fields are those of `Look`.

    The words are those of parts in that language, from memory, and agree with the titles.
    """

    word: str = ""
    breath_word: str = ""
    cancel: str = ""
    over: str = ""


@frozen(kw_only=True)
class Sound:
    """The sound of a technique, as far as no other field describes it.

    noise       what it sounds like without a pitch: slap, kiss, click, pop, tap
    air         share of breath in the tone, 0 to 1
    colour      the colour of the tone: brassy, bell-raised, half-valve, buzz
    splits      whether notes crack at the beginning because they are spat out
    waves_hz    cycles per second of a vibrato or trill
    opens       whether its waves open and close what covers the bell or the mute
    vibrato_cents   width of a vibrato to either side, in cents
    sung_cents  interval from the note to the sung note above it if none is written, in cents
    fades       whether the edge off a note gets softer
    through_harmonics  whether the edge of a note goes through the harmonics instead of sliding
    edge_share  share of its note that an edge takes, 0 to 1; None: the shortest note that may have it, at most half
    edge_turns  pitches of an edge in even steps, in cents from the note; () for straight to its end
    """

    noise: Noise = ""
    air: Sourced[float] | None = None
    colour: Colour = ""
    splits: bool = False
    waves_hz: Sourced[float] | None = None
    opens: bool = False
    vibrato_cents: Sourced[int] | None = None
    sung_cents: Sourced[float] | None = None
    fades: bool = False
    through_harmonics: bool = False
    edge_share: Sourced[float] | None = None
    edge_turns: tuple[int, ...] = ()


_PLAIN_SOUND = Sound()


# The limits of a technique that a profile may set: how long, how short, how soft, how loud it can be.
OWN_LIMITS = ("longest_s", "shortest_ms", "softest", "loudest")


def own_name(technique: str, limit: str) -> str:
    """What a profile calls a limit of a technique: "growl.longest_s"."""
    return f"{technique}.{limit}"


@frozen(kw_only=True)
class Technique:
    """One playing technique.

    key         the name the language uses
    layer       one of LAYERS: the kind of thing it is, which orders the words; an `as` replaces its layer
    path        one of PATHS: how the pitch gets from point to point
    moves       what the player moves, in words: "lip", "hand", "valves", "slide", "tongue", "throat", "air"
    kin         keys of techniques that may replace it when it is not possible, the nearest first: those that sound
                or move like it; "ordinary" if the note without it keeps what matters. Nothing else is offered
    points      fewest and most points its contour may have (None: no maximum)
    lines       kinds of line it takes: straight wavy broken dotted arrow slur none; () means any
    needs_line  whether at least one sliding line is required
    pitched     "exact": exact pitches can be asked for; "about": the result is approximate, an exact head promises
                too much; "none": no pitch at all (slap, kiss, clicks)
    needs       what the instrument must have: "hand", "valves", "slide", "trigger" (a slide with one),
                "valve-slide" (in reach of a hand that is not in the bell), "" for nothing
    tone        "none": there is no lip tone; "needs": it needs a sounding tone; "" for neither
    grid        cents between the pitches it is for: 50 for quarter tones
    sings       whether the player also sings; the gesture's sung line belongs to it
    holds       how many neighbouring partials sound at once
    takes       the parts it uses and what they do ("tongue": "roll"): two techniques that make a part do different
                things exclude each other, two that make it do the same share it
    hampers     the parts that others can use beside it only with care, with the reason
    limits      limits by name, each with evidence; LIMIT_UNITS has the names
    bell_hand   how far the hand closes the bell: "" open, "half", "stopped"; the player then fingers another note
    cover       how far the player covers the bell, or the opening of the mute: "" open, "half", "closed"
    in_hand     key of its equivalent where the hand is in the bell anyway, "" for itself
    of_mute     the mute that it belongs to, by name; "" for none. It is then in, whether or not it is named
    takes_mute  whether it is played with the gesture's mute
    one_partial whether a lip movement stays on its partial (a bend) or crosses to others
    harmonic    the harmonic it stands on: "" any, "first" the first of a tube, "between" none: the lip forces it
    trill       second note of a trill: "" none, "same" another fingering of the pitch, "above" the step above,
                "other" another note, "neighbour" the next partial of the tube
    rate        prefix of the instrument's limit on attacks per second, such as "single_tongue"; "" for none
    skill       how hard it is by itself, 0 (as plain playing) to 1 (few players can do it at all)
    effort      how much it tires, as a multiple of plain playing (1 = plain)
    flow        how much air it takes, as a multiple of plain playing
    first_notes written lowest and highest note on which it is first learnt; None: on those a student has
    tiring, loud   whether pages that use it carry the caution about tiredness, about loudness
    caution     key of the caution text in `wording`, "" for none
    look        how it looks on the page
    sound       how it sounds, as far as the fields above do not say
    called      other names in the trade, in any language, for people who type those instead
    means       how it works, as a clause, for names it shares with others ("gliss")
    labels      words on the page, by language, where it has its own; those of `look` are international
    labels_of_hand   others where a hand is in the bell: a horn's valves are worked by levers
    title       trade name, by language
    texts       instruction to the player, by language: complete sentences for the footnote
    texts_where   other texts for one of the cases in WHERE
    sources     where the description comes from
    """

    key: str
    layer: Layer
    path: Path = "none"
    moves: str
    kin: tuple[str, ...] = ()
    points: tuple[int, int | None] = (1, None)
    lines: tuple[LineKind, ...] = ()
    needs_line: bool = False
    pitched: Pitched = "exact"
    needs: Needs = ""
    tone: ToneNeed = ""
    grid: int = 100
    sings: bool = False
    holds: int = 1
    takes: Mapping[Part, str] = field(default_factory=dict)
    hampers: Mapping[Part, Sourced[str]] = field(default_factory=dict)
    limits: Mapping[str, Limit] = field(default_factory=dict)
    bell_hand: BellHand = ""
    cover: Cover = ""
    in_hand: str = ""
    of_mute: Mute | Literal[""] = ""
    takes_mute: bool = False
    one_partial: bool = False
    harmonic: Harmonic = ""
    trill: Trill = ""
    rate: str = ""
    skill: Sourced[float] | None = None
    effort: Sourced[float] | None = None
    flow: Sourced[float] | None = None
    first_notes: Sourced[tuple[str, str]] | None = None
    tiring: bool = False
    loud: bool = False
    caution: str = ""
    look: Look
    sound: Sound = _PLAIN_SOUND
    called: tuple[str, ...] = ()
    means: str = ""
    labels: Mapping[str, Label] = field(default_factory=dict)
    labels_of_hand: Mapping[str, Label] = field(default_factory=dict)
    title: Mapping[str, str]
    texts: Mapping[str, str]
    texts_where: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    sources: tuple[Sourced[Any], ...] = ()

    @property
    def looks(self) -> tuple[Look, ...]:
        """How it looks on pages of every language, the international one first."""
        labels = (*self.labels.values(), *self.labels_of_hand.values())
        return (self.look, *(self.look.labelled(label) for label in labels))

    @property
    def varies_width(self) -> bool:
        """Whether its waves may be narrower and wider: those around a pitch, and those of a shake."""
        return self.sound.vibrato_cents is not None or (self.trill == "neighbour" and not self.look.trill)

    @property
    def breath_only(self) -> bool:
        """Whether there is breath without lip tone."""
        return self.tone == "none" and self.pitched != "none"

    def __hash__(self) -> int:
        return hash(self.key)

    @property
    def tongues_only(self) -> bool:
        """Whether it only says how notes are tongued, so that it has no effect if none is."""
        return self.layer == "attack" and self.pitched == "exact"

    def __post_init__(self) -> None:
        if self.layer not in LAYERS or self.path not in PATHS:
            raise ValueError(f"{self.key}: layer {self.layer!r}, path {self.path!r}")
        if self.pitched not in ("exact", "about", "none") or self.tone not in ("", "none", "needs"):
            raise ValueError(f"{self.key}: pitched {self.pitched!r}, tone {self.tone!r}")
        if (self.pitched == "none") != bool(self.sound.noise) or bool(self.trill) > (
            self.sound.waves_hz is not None
        ):
            raise ValueError(f"{self.key}: what has no pitch is a noise, and a trill has a rate")
        if not self.texts_where.keys() <= set(WHERE):
            raise ValueError(f"{self.key}: texts for {self.texts_where.keys()}")
        unknown = [n for n, limit in self.limits.items() if limit.unit != LIMIT_UNITS.get(n)]
        if unknown:
            raise ValueError(f"{self.key}: limits of an unknown name or unit: {unknown}")


@frozen
class Joining:
    """Whether two techniques go together, the reason as a clause, and its evidence."""

    verdict: JoinVerdict
    reason: Sourced[str]


@cache
def joining(one: Technique, other: Technique) -> Joining:
    """Whether two techniques go together; every pair is decided. The order does not affect the verdict.

    They do not if they are the same, if a part of the player would have to do two things, if one gives no tone and
    the other needs one, or if one is separate strokes and the other needs a line. They need care if one hampers a
    part that the other uses, or for the pitch of a noise.
    """
    pairs = ((one, other), (other, one))
    if reason := _contradiction(one, other) or _contradiction(other, one):
        return Joining("not", Sourced(reason, DERIVED, "each part of the player does one thing at a time"))
    for a, b in pairs:
        for part, care in a.hampers.items():
            if part in b.takes:
                return Joining("with care", Sourced(care.source, care.kind, f"of {a.key}"))
        if a.pitched == "none" and (any(part in b.takes for part in _PITCH_PARTS) or b.grid != 100):
            reason = f"{a.key} has no pitch, so that little of {b.key} is heard"
            return Joining("with care", Sourced(reason, HOUSE, "a noise has no pitch"))
    free = f"neither takes up what the other needs ({one.moves}; {other.moves})"
    return Joining("goes", Sourced(free, DERIVED, "what each of them takes up"))


def _contradiction(one: Technique, other: Technique) -> str:
    """Why two techniques exclude each other, as far as the first one determines it, else ""."""
    if one.key == other.key:
        return f"{one.key} is there twice"
    for part, act in one.takes.items():
        if other.takes.get(part, act) != act:
            return f"{PART_WORDS[part]} cannot {act} and {other.takes[part]} at the same time"
    if one.tone == "none" and other.tone == "needs":
        return f"{one.key} gives no tone, and {other.key} works on a tone that sounds"
    if one.lines == ("none",) and other.needs_line:
        return f"{one.key} is made of separate strokes, and {other.key} needs a line to slide along"
    needs = {one.needs, other.needs}
    if needs & {"slide", "trigger"} and needs & {"hand", "valves", "valve-slide"}:
        both = f"{one.key} needs {NEED_WORDS[one.needs]} and {other.key} {NEED_WORDS[other.needs]}"
        return f"{both}, and no instrument has both"
    if needs == {"hand", "valve-slide"}:
        return "the hand in the bell cannot reach a valve slide"
    return ""


def clash(one: Technique, other: Technique) -> str:
    """Why two techniques cannot be joined in a gesture, as a clause; "" if they can."""
    found = joining(one, other)
    return found.reason.value if found.verdict == "not" else ""
