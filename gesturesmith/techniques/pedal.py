"""Pedal tones: the first harmonic of a tube, an octave below the usual lowest notes."""

from gesturesmith.evidence import DERIVED, HOUSE, MEMORY, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="pedal",
    layer="lip",
    tone="needs",
    moves="lip",
    harmonic="first",
    kin=("ordinary", "factitious"),
    takes={
        "lips": "stay loose on the first harmonic",
        "jaw": "drop",
        "harmonics": "be the first",
    },
    limits={
        "shortest_ms": Limit(Sourced(150, HOUSE, "they speak late"), unit="ms", side="below"),
    },
    skill=Sourced(0.35, HOUSE, "the lip is slack and the tone late; who plays low parts learns it"),
    effort=Sourced(1.1, HOUSE, "loose lips and much air; without force"),
    flow=Sourced(1.5, HOUSE, "much air, little resistance"),
    look=Look(
        word="pedal tone",
        cancel="ord.",
        reason=(
            "In words: the note itself stands where it sounds, and only the word tells that the first harmonic is "
            "meant and not a longer tube. Parts have “pedal” and “pedal tone”; “Ped.” alone would be read as the "
            "piano's."
        ),
    ),
    sources=(
        Sourced(
            "the first harmonic of the tube",
            DERIVED,
            "the harmonic series; the notes are those of each tube an octave below its second harmonic",
        ),
        Sourced(
            "the pedal note of the horn is no resonance of the tube",
            PUBLISHED,
            "Thompson, A study of French horn harmonics, Institute of Acoustics 2010",
        ),
        Sourced("pedal, pedal tone, Pedalton in parts", MEMORY, "common practice of contemporary parts"),
    ),
    called=(
        "pedal tone",
        "pedal tones",
        "pedal note",
        "pedal notes",
        "Pedalton",
        "Pedaltöne",
        "son pédale",
        "nota pedale",
    ),
    labels={
        "de": Label(word="Pedalton", over="Ton ord."),
        "fr": Label(word="son pédale", over="son ord."),
        "it": Label(word="suono pedale", over="suono ord."),
    },
    title={
        "en": "Pedal tone",
        "de": "Pedalton",
        "fr": "Son pédale",
        "it": "Suono pedale",
    },
    texts={
        "en": "Play this note as a pedal tone, the first harmonic: lips loose, much air, without forcing.",
        "de": "Diesen Ton als Pedalton spielen, den ersten Naturton: Lippen locker, viel Luft, ohne zu forcieren.",
        "fr": (
            "Jouer cette note en son pédale, le premier harmonique : lèvres souples, beaucoup d’air, sans forcer."
        ),
        "it": (
            "Suonare questa nota come suono pedale, il primo armonico: labbra rilassate, molta aria, senza forzare."
        ),
    },
)
