"""With a mute, named by the key `mute`."""

from gesturesmith.evidence import HOUSE, MEMORY, PRACTICE, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="muted",
    layer="bell",
    moves="mute",
    kin=("half-stopped", "stopped", "ordinary"),
    takes_mute=True,
    takes={"bell": "hold a mute"},
    skill=Sourced(0.05, HOUSE, "the same notes with a little more resistance"),
    effort=Sourced(1.1, HOUSE, "more resistance"),
    flow=Sourced(0.9, HOUSE, "the mute holds the air back"),
    look=Look(
        word="con sord. ({mute})",
        cancel="senza sord.",
        announce=True,
        reason=(
            '"con sord." and "senza sord." are understood everywhere; the kind of mute is in '
            "brackets. The change is announced in the rest before, when the player has time for it "
            "(Gould, from memory). Harmon signs such as SMuFL brassHarmonMuteClosed are for changes "
            "while playing."
        ),
    ),
    sources=(
        Sourced(
            "cup mute: at least five seconds before and after", PRACTICE, "bnelsonmusic.wordpress.com 2012/04/09"
        ),
        Sourced("a glass held in the bell, or a cloth over it, in the place of a mute", MEMORY, "common practice"),
        Sourced(
            "straight, cup, plunger and other mutes of the horn",
            PRACTICE,
            "D. Hill, Extended Techniques for the Horn, contents",
        ),
    ),
    called=(
        "con sord",
        "con sordino",
        "con sordini",
        "sord",
        "sordino",
        "sordina",
        "mute",
        "with mute",
        "mutes",
        "gedämpft",
        "gedampft",
        "m D",
        "avec sourdine",
        "sourdine",
        "sourd",
        "bouché avec sourdine",
    ),
    labels={
        "de": Label(word="mit Dämpfer ({mute})", cancel="ohne Dämpfer"),
        "fr": Label(word="avec sourdine ({mute})", cancel="sans sourdine"),
    },
    title={
        "en": "Muted",
        "de": "Mit Dämpfer",
        "fr": "Avec sourdine",
        "it": "Con sordina",
    },
    texts={
        "en": "Play with the mute named there until “senza sord.”.",
        "de": "Mit dem angegebenen Dämpfer spielen, bis „senza sord.“ steht.",
        "fr": "Jouer avec la sourdine indiquée jusqu’à « senza sord. ».",
        "it": "Suonare con la sordina indicata fino a «senza sord.».",
    },
)
