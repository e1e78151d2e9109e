"""Half-valve notes: single notes of a melody with the valves half down, told by their heads alone."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="half-valve-notes",
    layer="valves",
    needs="valves",
    tone="needs",
    moves="valves half down, and lip",
    kin=("half-valve", "ordinary"),
    takes={"valves": "stay half down", "harmonics": "be blurred"},
    limits={
        "fastest_per_s": Limit(
            Sourced(4, HOUSE, "thecontemporaryhorn.com: vague centres, avoid fast rhythms; the number is ours"),
            unit="1/s",
        ),
        "shortest_ms": Limit(Sourced(150, HOUSE, "the hollow tone speaks late"), unit="ms", side="below"),
        "loudest": Limit(
            Sourced("f", HOUSE, "beyond it the tone breaks into the open one"), unit="level", side="louder"
        ),
    },
    skill=Sourced(0.45, HOUSE, "the ear finds each pitch where the slots are vague"),
    effort=Sourced(1.2, HOUSE, "more resistance, and the lip must find the pitch"),
    flow=Sourced(0.85, HOUSE, "the half-closed valves hold the air back"),
    look=Look(
        head="diamond",
        reason=(
            "Diamond heads and no word: where the head is ordinary again the valves go right down, so that a "
            "melody can go to and fro without an “ord.” at each note (our own judgement; diamonds and slashes "
            "for half valves are met in parts)."
        ),
    ),
    sound=Sound(colour="half-valve"),
    sources=(
        Sourced("half-valve of definite pitch", PRACTICE, "D. Hill, Extended Techniques for the Horn, contents"),
    ),
    called=("half valve melody", "half valve tones"),
    title={
        "en": "Half-valve notes",
        "de": "Halbventil-Töne",
        "fr": "Notes à demi-piston",
        "it": "Note a mezzo pistone",
    },
    texts={
        "en": (
            "Diamond heads: press the valves half-way and bring the note to its pitch with the lip. Ordinary "
            "heads: press them right down."
        ),
        "de": (
            "Rautenköpfe: die Ventile halb drücken und den Ton mit den Lippen auf seine Höhe bringen. Normale "
            "Köpfe: ganz drücken."
        ),
        "fr": (
            "Têtes en losange : enfoncer les pistons à moitié et amener la note à sa hauteur avec les lèvres. "
            "Têtes ordinaires : les enfoncer à fond."
        ),
        "it": (
            "Teste a rombo: abbassare i pistoni a metà e portare la nota all’altezza con le labbra. Teste "
            "normali: abbassarli del tutto."
        ),
    },
)
