"""Half-valve: the valves half down, a hollow tone without fixed pitches."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="half-valve",
    layer="valves",
    path="half-valve",
    moves="valves half down, and lip",
    kin=("slide-gliss", "lip-gliss", "fingered-gliss"),
    pitched="about",
    needs="valves",
    takes={"valves": "stay half down", "harmonics": "be blurred"},
    hampers={
        "fingering": Sourced(
            "with care", HOUSE, "valves that go only half-way down are slow and uncertain in a run"
        ),
    },
    limits={
        "shortest_ms": Limit(Sourced(150, HOUSE, "the hollow tone speaks late"), unit="ms", side="below"),
        "loudest": Limit(
            Sourced("f", HOUSE, "beyond it the tone breaks into the open one"), unit="level", side="louder"
        ),
    },
    skill=Sourced(0.3, HOUSE, "easy to make, hard to shape"),
    effort=Sourced(1.2, HOUSE, "more resistance, and the lip must find the pitch"),
    flow=Sourced(0.85, HOUSE, "the half-shut valves hold the air back"),
    look=Look(
        word="½ valve",
        cancel="ord.",
        over="valves ord.",
        reason=(
            '"½ valve" in words, as in most parts; SMuFL has no glyph for it. Slashed or diamond '
            "heads are also used, but mean other things elsewhere. The heads are x if the pitch is "
            'approximate (Stone, from memory). It ends with "ord."; if another technique continues, '
            '"valves ord." says what is over (our own judgement).'
        ),
    ),
    sound=Sound(colour="half-valve"),
    sources=(
        Sourced(
            "hollow tone, a shifted and very untrue series, vague centres; the lip corrects up to a semitone",
            PRACTICE,
            "thecontemporaryhorn.com ?p=4356",
        ),
        Sourced(
            "half-valve of definite and indefinite pitch",
            PRACTICE,
            "D. Hill, Extended Techniques for the Horn, contents",
        ),
    ),
    called=(
        "half valved",
        "half valve gliss",
        "squeeze",
        "demi-pistons",
        "halb gedrückt",
        "gliss",
        "glissando",
    ),
    means="half-pressed valves let the lip slide anywhere, with a veiled tone",
    labels={
        "de": Label(word="½ Ventil", over="Ventile ord."),
        "fr": Label(word="½ piston", over="pistons normaux"),
        "it": Label(word="½ pistone", over="pistoni ord."),
    },
    labels_of_hand={
        "fr": Label(word="½ palette", over="palettes normales"),
        "it": Label(word="½ cilindro", over="cilindri ord."),
    },
    title={
        "en": "Half-valve",
        "de": "Halbventil",
        "fr": "Demi-piston",
        "it": "Mezzo pistone",
    },
    texts={
        "en": (
            "Press the valves half-way down and follow the line with the lip; the tone is hollow and the "
            "pitches are approximate. “Ord.” or another technique ends it."
        ),
        "de": (
            "Die Ventile halb drücken und mit den Lippen der Linie folgen; der Ton ist hohl, die Tonhöhen "
            "sind ungefähr. „Ord.“ oder eine andere Spielweise hebt es auf."
        ),
        "fr": (
            "Enfoncer les pistons à moitié et suivre la ligne avec les lèvres ; le son est creux, les "
            "hauteurs sont approximatives. « Ord. » ou une autre indication met fin à l’effet."
        ),
        "it": (
            "Abbassare i pistoni a metà e seguire la linea con le labbra; il suono è cavo e le altezze "
            "sono approssimative. «Ord.» o un’altra indicazione annulla l’effetto."
        ),
    },
)
