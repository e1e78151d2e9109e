"""Single tonguing, explicitly asked for."""

from gesturesmith.evidence import HOUSE, PRACTICE, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="single-tongue",
    layer="attack",
    moves="tongue",
    kin=("double-tongue", "ordinary"),
    rate="single_tongue",
    takes={"stroke": "be single", "tonguing": "strike a tone"},
    skill=Sourced(0, HOUSE, "how every note is tongued"),
    effort=Sourced(1.0, HOUSE, "as plain playing"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        word="single tongue",
        cancel="ord.",
        over="attack ord.",
        reason=(
            "A word, since a single dot would be a staccato; SMuFL has dots for double and triple "
            "tonguing, but none for single. Its end is printed like that of every word."
        ),
    ),
    sources=(
        Sourced(
            "not faster than sixteenths at a quarter of 100 to 110, slower when low",
            PRACTICE,
            "thecontemporaryhorn.com ?p=11702",
        ),
        Sourced("a goal of sixteenths at a quarter of 126", PRACTICE, "hornmatters.com 2018/07"),
    ),
    called=("tongued", "tongue", "Zungenstoß", "einfacher Zungenstoß", "coup de langue", "colpo di lingua"),
    labels={
        "de": Label(word="Einfachzunge", over="Anstoß ord."),
        "fr": Label(word="simple coup de langue", over="attaque ord."),
        "it": Label(word="colpo di lingua semplice", over="attacco ord."),
    },
    title={
        "en": "Single tonguing",
        "de": "Einfachzunge",
        "fr": "Simple coup de langue",
        "it": "Colpo di lingua semplice",
    },
    texts={
        "en": "Tongue each note singly (ta ta ta), also where double tonguing would be easier.",
        "de": "Jeden Ton einzeln anstoßen (ta ta ta), auch wo die Doppelzunge leichter wäre.",
        "fr": (
            "Attaquer chaque note en simple coup de langue (ta ta ta), même là où le double serait plus facile."
        ),
        "it": (
            "Attaccare ogni nota con il colpo di lingua semplice (ta ta ta), anche dove il doppio sarebbe "
            "più facile."
        ),
    },
)
