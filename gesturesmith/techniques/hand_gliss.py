"""A glissando by the hand, which closes or opens the bell."""

from gesturesmith.evidence import HOUSE, PRACTICE, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="hand-gliss",
    layer="motion",
    path="hand",
    moves="hand",
    kin=("lip-gliss", "bend", "slide-gliss", "fingered-gliss"),
    needs="hand",
    takes={"pitch": "be moved by the hand", "bell": "be shut and opened by the hand", "hand": "move in the bell"},
    limits={
        "shortest_ms": Limit(
            Sourced(200, HOUSE, "in less the hand makes a change of colour, not a slide"),
            unit="ms",
            side="below",
        )
    },
    skill=Sourced(0.35, HOUSE, "hand and lip agree on the way down"),
    effort=Sourced(1.05, HOUSE, "a little more resistance as the hand closes"),
    flow=Sourced(0.95, HOUSE, "the closing hand holds the air back"),
    look=Look(
        word="hand gliss.",
        motion="hand",
        reason=(
            "The hand signs o and + are at the ends, as for stopped notes (SMuFL brassMuteOpen and "
            "brassMuteClosed), with an arrow between them: the signs show the hand, the line the "
            "pitch. No wave between the signs, since only the contour is wavy."
        ),
    ),
    sources=(
        Sourced(
            "the pitch falls smoothly while the hand closes",
            PUBLISHED,
            "JASA 155(3 Suppl) A109 (2024), doi 10.1121/10.0026978, abstract",
        ),
        Sourced(
            "half-step hand glissando: smooth, with a change of colour",
            PRACTICE,
            "bnelsonmusic.wordpress.com 2012/04/09",
        ),
    ),
    called=("gliss", "glissando", "hand bend"),
    means="the hand closes in the bell and lowers the note",
    labels={
        "de": Label(word="Handgliss."),
        "fr": Label(word="gliss. de la main"),
        "it": Label(word="gliss. con la mano"),
    },
    title={
        "en": "Hand glissando",
        "de": "Glissando mit der Hand",
        "fr": "Glissando de la main",
        "it": "Glissando con la mano",
    },
    texts={
        "en": ("Slide by closing or opening the hand in the bell; keep the fingering and let the colour change."),
        "de": (
            "Durch Schließen oder Öffnen der Hand im Schalltrichter gleiten; den Griff beibehalten, die "
            "Klangfarbe darf sich ändern."
        ),
        "fr": (
            "Glisser en fermant ou en ouvrant la main dans le pavillon ; garder le doigté et laisser le "
            "timbre changer."
        ),
        "it": (
            "Glissare chiudendo o aprendo la mano nel padiglione; mantenere la posizione e lasciare che "
            "il timbro cambi."
        ),
    },
    texts_where={
        "single": {
            "en": "Slide by closing or opening the hand in the bell, and let the colour change.",
            "de": (
                "Durch Schließen oder Öffnen der Hand im Schalltrichter gleiten; die Klangfarbe darf sich ändern."
            ),
            "fr": "Glisser en fermant ou en ouvrant la main dans le pavillon ; laisser le timbre changer.",
            "it": "Glissare chiudendo o aprendo la mano nel padiglione; lasciare che il timbro cambi.",
        },
    },
)
