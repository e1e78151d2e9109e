"""Multiphonic: sing and play at the same time."""

from gesturesmith.evidence import DERIVED, HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="multiphonic",
    layer="voice",
    moves="lip and voice",
    kin=("growl", "split-tone"),
    sings=True,
    takes={"throat": "sing", "breath": "stream"},
    hampers={
        "lips": Sourced("with care", HOUSE, "the voice must hold its note while the lip leaves its own"),
    },
    limits={
        "fastest_per_s": Limit(Sourced(3, HOUSE, "voice and lip must both find their note"), unit="1/s"),
        "shortest_ms": Limit(Sourced(400, HOUSE, "the two pitches must settle"), unit="ms", side="below"),
        "longest_s": Limit(Sourced(12, HOUSE, "voice and lip share one breath"), unit="s"),
        "loudest": Limit(Sourced("f", HOUSE, "beyond it the voice is covered"), unit="level", side="louder"),
    },
    skill=Sourced(0.8, HOUSE, "the voice holds one line and the lip another; many players never learn it"),
    effort=Sourced(1.3, HOUSE, "voice and lip together"),
    flow=Sourced(1.3, HOUSE, "voice and tone share the air"),
    tiring=True,
    caution="caution-voice",
    look=Look(
        word="sing + play",
        breath_word="sing",
        cancel="ord.",
        over="senza voce",
        sung_head="diamond",
        reason=(
            "The played note has an ordinary head, the sung one a small diamond in its own voice, "
            'with the words. Sources differ: one stem for both, ordinary heads for both with "voice" '
            "at one of them, and diamonds for the sung note are all in use (from memory). Two voices "
            "let each have its own line. If no sung line is written, the octave is left to the "
            "singer, and the note says so."
        ),
    ),
    sound=Sound(
        sung_cents=Sourced(1586.3, DERIVED, "a tenth, as its instruction asks; 5:2, in tune with the note")
    ),
    sources=(Sourced("sung and played multiphonics", MEMORY, "D. Hill, Extended Techniques for the Horn"),),
    called=(
        "multiphonics",
        "sing",
        "singing",
        "sung",
        "voice",
        "vocal",
        "vocalise",
        "hum",
        "humming",
        "sing and play",
        "singen",
        "singend",
        "Gesang",
        "Stimme",
        "summen",
        "chanter",
        "chanté",
        "chant",
        "voix",
        "cantare",
        "cantando",
        "cantato",
        "voce",
        "Mehrklänge",
        "son multiple",
    ),
    labels={
        "de": Label(word="singen + spielen", breath_word="singen", over="ohne Stimme"),
        "fr": Label(word="chanter + jouer", breath_word="chanter", over="sans voix"),
        "it": Label(word="cantare + suonare", breath_word="cantare"),
    },
    title={
        "en": "Multiphonic (sing and play)",
        "de": "Mehrklang (singen und spielen)",
        "fr": "Sons multiphoniques (chanter et jouer)",
        "it": "Multifonico (cantare e suonare)",
    },
    texts={
        "en": (
            "Sing while you play, a tenth above the note written or in another octave of it that suits your voice."
        ),
        "de": (
            "Während des Spielens singen, eine Dezime über dem notierten Ton oder in einer anderen Oktave, die "
            "zur Stimme passt."
        ),
        "fr": (
            "Chanter en jouant, une dixième au-dessus de la note écrite, ou à une autre octave qui convient à la "
            "voix."
        ),
        "it": ("Cantare mentre si suona, una decima sopra la nota scritta o a un’altra ottava adatta alla voce."),
    },
    texts_where={
        "breath": {
            "en": (
                "With air alone, sing into the instrument while you blow: the note with the small diamond where "
                "one is written, else one that suits your voice."
            ),
            "de": (
                "Bei bloßer Luft beim Blasen in das Instrument singen: den Ton mit der kleinen Raute, wo einer "
                "notiert ist, sonst einen, der zur Stimme passt."
            ),
            "fr": (
                "Avec le souffle seul, chanter dans l’instrument : la note au petit losange si elle est écrite, "
                "sinon une note qui convient à la voix."
            ),
            "it": (
                "Con il solo soffio, cantare nello strumento: la nota con il piccolo rombo, se è scritta, "
                "altrimenti una adatta alla voce."
            ),
        },
        "sung": {
            "en": "Play the ordinary notehead and sing the diamond one at the same time, at the pitch written.",
            "de": (
                "Den normalen Notenkopf spielen und zugleich den rautenförmigen singen, in der notierten Tonhöhe."
            ),
            "fr": (
                "Jouer la note à tête ordinaire et chanter en même temps la note en losange, à la hauteur écrite."
            ),
            "it": (
                "Suonare la nota con testa normale e cantare contemporaneamente quella a rombo, all’altezza "
                "scritta."
            ),
        },
    },
)
