"""Flutter-tongue: a rolled r while playing."""

from gesturesmith.evidence import HOUSE, MEMORY, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Look, Technique

TECHNIQUE = Technique(
    key="flutter-tongue",
    layer="tongue",
    moves="tongue",
    kin=("growl", "ordinary"),
    takes={"tongue": "roll", "breath": "stream"},
    limits={
        "shortest_ms": Limit(Sourced(150, HOUSE, "three or four rolls of the tongue"), unit="ms", side="below"),
        "longest_s": Limit(Sourced(10, HOUSE, "one breath, much air"), unit="s"),
        "softest": Limit(
            Sourced("p", PRACTICE, "harder at low volume, composerstubaguide.blog (A. Hynds)"),
            unit="level",
            side="softer",
        ),
        "registers": Limit(
            Sourced(
                ("low", "middle", "high"),
                PRACTICE,
                "least effective at the extremes of the range, composerstubaguide.blog (A. Hynds)",
            ),
            unit="register",
            side="outside",
        ),
        "cycles_hz": Limit(
            Sourced((20, 30), MEMORY, "20 to 30 rolls a second; 15 to 30 on one page"), unit="Hz", side="none"
        ),
        "cycle_periods": Limit(
            Sourced(3, HOUSE, "fewer periods in a roll leave no pitch"), unit="periods", side="below"
        ),
    },
    skill=Sourced(
        0.35,
        HOUSE,
        "some players cannot roll an r (composerstubaguide.blog), the others soon can; the number is ours",
    ),
    effort=Sourced(1.4, HOUSE, "the lips are shaken"),
    flow=Sourced(1.4, HOUSE, "the roll needs a strong stream"),
    tiring=True,
    caution="caution-flutter",
    look=Look(
        word="flz.",
        cancel="ord.",
        tremolo=3,
        reason=(
            'Three slashes on the stem (SMuFL tremolo3) with "flz.", because slashes alone do not tell a '
            "flutter from a growl or from measured notes. Sources differ in the word (flz., flt. and flatt. "
            "are all in use): one spelling is kept throughout."
        ),
    ),
    sources=(
        Sourced(
            "flatt., flt. and flz. are in use; slashes alone do not tell it from a growl; some cannot roll an r",
            MEMORY,
            "thecontemporaryhorn.com, not found again",
        ),
    ),
    called=(
        "flutter",
        "flutter tonguing",
        "flz",
        "fltz",
        "flt",
        "frull",
        "frulato",
        "Zungentremolo",
        "trémolo dental",
        "roulement de langue",
        "rolled r",
    ),
    means="the tongue rolls an r while the note sounds",
    title={
        "en": "Flutter-tongue",
        "de": "Flatterzunge",
        "fr": "Flatterzunge (trémolo dental)",
        "it": "Frullato",
    },
    texts={
        "en": ("Roll the tongue (rr) while playing, through the whole note; if you cannot, growl with the throat."),
        "de": (
            "Während des ganzen Tones die Zunge rollen (rr); wem das nicht möglich ist, der nimmt das Zäpfchen-R."
        ),
        "fr": "Rouler la langue (rr) pendant toute la durée de la note ; à défaut, employer le r guttural.",
        "it": (
            "Far vibrare la lingua (rr) per tutta la durata della nota; se non è possibile, usare la r gutturale."
        ),
    },
)
