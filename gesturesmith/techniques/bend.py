"""A bend: the lip takes the note off its pitch and brings it back, on one partial."""

from gesturesmith.evidence import HOUSE, MEMORY, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Look, Technique

TECHNIQUE = Technique(
    key="bend",
    layer="motion",
    path="lip",
    moves="lip",
    kin=("lip-gliss", "hand-gliss"),
    one_partial=True,
    tone="needs",
    takes={"pitch": "be bent by the lip", "lips": "bend"},
    limits={
        "shortest_ms": Limit(
            Sourced(250, HOUSE, "down and back again in less is heard as a cracked note"),
            unit="ms",
            side="below",
        )
    },
    skill=Sourced(0.35, HOUSE, "the lip leaves the middle of a note without losing it"),
    effort=Sourced(1.1, HOUSE, "the lip leaves the middle of the note"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        motion="bend",
        reason=(
            "A small V after the note, down and back: the form of SMuFL brassBend. Sources differ "
            "(from memory): some scores draw a line to a second pitch and back, some jazz parts an "
            "arc. A line would promise a second pitch and an arc reads as a tie, hence the V."
        ),
    ),
    sources=(
        Sourced(
            "bends go down to about half way to the next partial, up only a little",
            MEMORY,
            "hsutrumpets.com, not found again",
        ),
        Sourced(
            "bend or dip among the horn's effects", PRACTICE, "D. Hill, Extended Techniques for the Horn, contents"
        ),
    ),
    called=("pitch bend", "lip down", "portamento", "inflexion", "inflessione"),
    means="the lip lowers one note and stays on its harmonic",
    title={
        "en": "Lip bend",
        "de": "Bending mit dem Ansatz",
        "fr": "Inflexion à la lèvre (bend)",
        "it": "Inflessione con le labbra (bend)",
    },
    texts={
        "en": "Bend the pitch down with the lip, on the same fingering, and bring it back to the note.",
        "de": "Den Ton mit dem Ansatz, ohne Griffwechsel, nach unten ziehen und wieder zurückführen.",
        "fr": ("Abaisser la note avec les lèvres, sans changer de doigté, puis revenir à la hauteur de départ."),
        "it": ("Abbassare il suono con le labbra, senza cambiare posizione, e riportarlo all’altezza di partenza."),
    },
    texts_where={
        "slide": {
            "en": "Bend the pitch down with the lip, without moving the slide, and bring it back to the note.",
            "de": "Den Ton mit dem Ansatz, ohne den Zug zu bewegen, nach unten ziehen und wieder zurückführen.",
            "fr": (
                "Abaisser la note avec les lèvres, sans bouger la coulisse, puis revenir à la hauteur de départ."
            ),
            "it": (
                "Abbassare il suono con le labbra, senza muovere la coulisse, e riportarlo all’altezza di partenza."
            ),
        },
        "single": {
            "en": "Bend the pitch down with the lip, and bring it back to the note.",
            "de": "Den Ton mit dem Ansatz nach unten ziehen und wieder zurückführen.",
            "fr": "Abaisser la note avec les lèvres, puis revenir à la hauteur de départ.",
            "it": "Abbassare il suono con le labbra e riportarlo all’altezza di partenza.",
        },
        "up": {
            "en": (
                "Bend the pitch with the lip as the line goes, upward only a little, and bring it back to the note."
            ),
            "de": "Den Ton mit dem Ansatz der Linie nach ziehen, aufwärts nur ein wenig, und wieder zurückführen.",
            "fr": (
                "Infléchir la note avec les lèvres en suivant la ligne, vers l’aigu très peu seulement, "
                "puis revenir à la hauteur de départ."
            ),
            "it": (
                "Inflettere il suono con le labbra seguendo la linea, verso l’acuto solo di poco, e "
                "riportarlo all’altezza di partenza."
            ),
        },
    },
)
