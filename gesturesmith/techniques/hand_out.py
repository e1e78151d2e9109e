"""Slides with the hand out of the bell, smooth where partials are close, high up."""

from gesturesmith.evidence import HOUSE, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="hand-out",
    layer="motion",
    path="hand-out",
    moves="lip, with the hand out of the bell",
    kin=("harmonic-gliss", "lip-gliss", "fingered-gliss", "slide-gliss", "chromatic"),
    points=(2, None),
    needs_line=True,
    needs="hand",
    tone="needs",
    takes={
        "pitch": "slide with the hand out of the bell",
        "lips": "slide from harmonic to harmonic",
        "bell": "be quite open",
        "hand": "be out of the bell",
    },
    limits={
        "shortest_ms": Limit(Sourced(200, HOUSE, "in less the slide is heard as a jump"), unit="ms", side="below")
    },
    skill=Sourced(0.5, HOUSE, "high, and without the support the hand gives"),
    effort=Sourced(1.3, HOUSE, "high, and without the support the hand gives"),
    flow=Sourced(1.1, HOUSE, "less resistance at the bell"),
    tiring=True,
    caution="caution-lip",
    look=Look(
        word="hand out",
        cancel="hand in",
        reason=(
            "An instruction in words with its end, since no sign for an empty bell is in general use (none in "
            "SMuFL): the player must have time to read it and to move. The words are our own choice; parts "
            "differ."
        ),
    ),
    sources=(
        Sourced(
            "without the hand the upper partials lose their hold, and the lip slides over them",
            HOUSE,
            "to be tried with players",
        ),
    ),
    called=("hand out", "ohne Hand", "main dehors", "senza mano"),
    labels={
        "de": Label(word="Hand heraus", cancel="Hand wieder hinein"),
        "fr": Label(word="main dehors", cancel="main dans le pavillon"),
        "it": Label(word="mano fuori", cancel="mano dentro"),
    },
    title={
        "en": "Hand out of the bell",
        "de": "Hand aus dem Schalltrichter",
        "fr": "Main hors du pavillon",
        "it": "Mano fuori dal padiglione",
    },
    texts={
        "en": (
            "Take the hand out of the bell and slide smoothly with the lip along the line; put the hand "
            "back when you come to “hand in”."
        ),
        "de": (
            "Die Hand aus dem Schalltrichter nehmen und mit den Lippen gleichmäßig der Linie folgen; bei "
            "„hand in“ die Hand wieder einsetzen."
        ),
        "fr": (
            "Retirer la main du pavillon et glisser régulièrement avec les lèvres en suivant la ligne ; "
            "remettre la main à l’indication « hand in »."
        ),
        "it": (
            "Togliere la mano dal padiglione e glissare in modo continuo con le labbra seguendo la linea; "
            "rimettere la mano all’indicazione «hand in»."
        ),
    },
)
