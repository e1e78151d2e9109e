"""A trill by the lip between neighbouring partials of one fingering."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="lip-trill",
    layer="lip",
    moves="lip",
    kin=("shake", "valve-trill"),
    tone="needs",
    trill="neighbour",
    takes={"lips": "trill", "jaw": "trill", "harmonics": "stay clear", "trill": "trill by the lip"},
    hampers={
        "tongue": Sourced("with care", HOUSE, "a tongue that rolls or strikes disturbs the lip that trills"),
    },
    limits={
        "waves_per_s": Limit(Sourced(9, HOUSE, "the lip at its fastest"), unit="1/s"),
        "shortest_ms": Limit(Sourced(300, HOUSE, "two or three waves"), unit="ms", side="below"),
        "longest_s": Limit(Sourced(8, HOUSE, "the lip tires quickly"), unit="s"),
        "widest_cents": Limit(
            Sourced(210, PRACTICE, "common practice: a whole tone at most, so from the eighth partial up"),
            unit="cents",
        ),
    },
    skill=Sourced(0.75, HOUSE, "years of practice, and on many notes not at all"),
    effort=Sourced(1.4, HOUSE, "the lip works all the time"),
    flow=Sourced(1.05, HOUSE, "a steady stream"),
    tiring=True,
    caution="caution-lip",
    look=Look(
        word="lip",
        trill="trill",
        reason=(
            'The ordinary trill sign with the word "lip", because the sign alone leaves the means to '
            "the player (SMuFL has brassValveTrill only for the other case). A small accidental shows "
            "which second the next harmonic is; a harmonic further away is a small head in "
            "parentheses after the note."
        ),
    ),
    sound=Sound(waves_hz=Sourced(7.0, HOUSE, "two or three waves in the shortest note it is asked on")),
    sources=(
        Sourced("flexible and irregular trills", PRACTICE, "D. Hill, Extended Techniques for the Horn, contents"),
    ),
    called=("tr", "trill", "Triller", "trille", "trillo"),
    means="the lip goes between two neighbouring harmonics",
    labels={
        "de": Label(word="Lippen"),
        "fr": Label(word="lèvres"),
        "it": Label(word="labbra"),
    },
    title={
        "en": "Lip trill",
        "de": "Lippentriller",
        "fr": "Trille de lèvres",
        "it": "Trillo di labbra",
    },
    texts={
        "en": "Trill with the lip to the next harmonic above, on one fingering.",
        "de": "Mit den Lippen zum nächsthöheren Naturton trillern, ohne den Griff zu wechseln.",
        "fr": "Triller avec les lèvres vers l’harmonique supérieur, sur un seul doigté.",
        "it": "Trillare con le labbra con l’armonico superiore, mantenendo la stessa posizione.",
    },
    texts_where={
        "waves": {
            "en": "Trill with the lip to the note shown, faster where the wave is closer.",
            "de": "Mit den Lippen zu dem angegebenen Ton trillern, schneller, wo die Wellenlinie enger ist.",
            "fr": "Triller avec les lèvres vers la note indiquée, plus vite là où la ligne ondulée est serrée.",
            "it": "Trillare con le labbra con la nota indicata, più in fretta dove la linea ondulata è fitta.",
        },
        "interval": {
            "en": "Trill with the lip to the note shown.",
            "de": "Mit den Lippen zu dem angegebenen Ton trillern.",
            "fr": "Triller avec les lèvres vers la note indiquée.",
            "it": "Trillare con le labbra con la nota indicata.",
        },
        "slide": {
            "en": "Trill with the lip to the next harmonic above, without moving the slide.",
            "de": "Mit den Lippen zum nächsthöheren Naturton trillern, ohne den Zug zu bewegen.",
            "fr": "Triller avec les lèvres vers l’harmonique supérieur, sans bouger la coulisse.",
            "it": "Trillare con le labbra con l’armonico superiore, senza muovere la coulisse.",
        },
        "single": {
            "en": "Trill with the lip to the next harmonic above.",
            "de": "Mit den Lippen zum nächsthöheren Naturton trillern.",
            "fr": "Triller avec les lèvres vers l’harmonique supérieur.",
            "it": "Trillare con le labbra con l’armonico superiore.",
        },
    },
)
