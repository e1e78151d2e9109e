"""Buzzing with the lips alone, without mouthpiece or instrument."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="lip-buzz",
    layer="tone",
    pitched="about",
    tiring=True,
    caution="caution-lip",
    moves="lips",
    kin=("mouthpiece-alone",),
    takes={
        "mouthpiece": "be left off",
        "tube": "be left off",
        "bell": "be left off",
        "hand": "leave the bell",
        "valves": "be left alone",
        "slide": "be left alone",
        "fingering": "be left alone",
        "harmonics": "be missing",
    },
    limits={
        "shortest_ms": Limit(Sourced(100, HOUSE, "a buzz needs a moment to be heard"), unit="ms", side="below"),
        "loudest": Limit(Sourced("mf", HOUSE, "lips alone do not carry"), unit="level", side="louder"),
        "longest_s": Limit(Sourced(10, HOUSE, "hard on the lips"), unit="s"),
    },
    skill=Sourced(0.4, HOUSE, "pitch without any help of a tube"),
    effort=Sourced(1.4, HOUSE, "nothing helps the lips"),
    flow=Sourced(1.3, HOUSE, "nothing holds the air back"),
    look=Look(
        word="buzz (lips alone)",
        cancel="ord.",
        over="instrument",
        reason=(
            "The word and its end, as for the mouthpiece alone; no tube holds the pitches; x-heads say so "
            "where they are written."
        ),
    ),
    sound=Sound(colour="buzz"),
    sources=(Sourced("buzzing with the lips alone", MEMORY, "common practice of contemporary parts"),),
    called=("lips alone", "buzz lips alone", "free buzz"),
    labels={
        "de": Label(word="Lippen allein", over="Instrument"),
        "fr": Label(word="lèvres seules", over="instrument"),
        "it": Label(word="labbra sole", over="strumento"),
    },
    title={
        "en": "Lips alone (buzz)",
        "de": "Lippen allein (Summen)",
        "fr": "Lèvres seules (bourdonnement)",
        "it": "Labbra sole (ronzio)",
    },
    texts={
        "en": (
            "Buzz with the lips alone, without mouthpiece; the pitches are approximate. “Ord.” means back to the "
            "instrument."
        ),
        "de": (
            "Nur mit den Lippen summen, ohne Mundstück; die Tonhöhen sind ungefähr. „Ord.“: wieder mit dem "
            "Instrument."
        ),
        "fr": (
            "Faire vibrer les lèvres seules, sans embouchure ; les hauteurs sont approximatives. « Ord. » : "
            "reprendre l’instrument."
        ),
        "it": (
            "Far vibrare le sole labbra, senza bocchino; le altezze sono approssimative. «Ord.»: di nuovo con lo "
            "strumento."
        ),
    },
)
