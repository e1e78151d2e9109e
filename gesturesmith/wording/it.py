"""Italiano."""

TEXTS = {
    "heading-notes": "Note per l’esecuzione",
    "heading-general": "Osservazioni generali",
    "heading-transposition": "Trasposizione e chiavi",
    "heading-techniques": "Tecniche",
    "heading-signs": "Segni",
    "heading-gestures": "Gesti",
    "heading-passages": "Passaggi",
    "heading-exercises": "Esercizi",
    "heading-cautions": "Avvertenze",
    "heading-remarks": "Osservazioni",
    "page-of": "pagina {page} di {pages}",
    "version-line": "Versione {version}, {date}",
    "seconds": "s",
    "beat": "tempo",
    "beats": "tempi",
    "fingering": "Posizione",
    "position": "Posizione della coulisse",
    "side": "lato {side}",
    "warm-up": "Riscaldamento",
    "preparation": "Preparazione",
    "rest": "Riposo",
    "level": "Livello {level}",
    "times": "{count} volte",
    "see-note": "vedi nota {number}",
    "word-ordinary": "ord.",
    "word-sing": "cantare",
    "word-play": "suonare",
    "mute-straight": "straight",
    "mute-stopping": "stopping",
    "mute-cup": "cup",
    "mute-harmon": "harmon",
    "mute-plunger": "plunger",
    "mute-bucket": "bucket",
    "mute-practice": "da studio",
    "register-low": "registro grave",
    "register-middle": "registro medio",
    "register-high": "registro acuto",
    "register-top": "registro sovracuto",
    "remark-approximate": (
        "Le note con testa a croce hanno altezza approssimativa. Suonare vicino all’altezza indicata; la forma "
        "del gesto conta più della singola altezza."
    ),
    "remark-exact": "Le note con testa normale hanno altezza esatta.",
    "remark-slash-head": "Le note con testa a barra indicano solo il ritmo; l’altezza è libera.",
    "remark-diamond-head": "Le teste a rombo indicano la posizione e non un suono pieno.",
    "remark-wavy": (
        "Una linea ondulata è il profilo del gesto: seguirla attraverso i suoi punti, al momento indicato. Solo "
        "questa linea è ondulata."
    ),
    "remark-growing": "Dove le onde di una linea crescono, muoversi attorno a essa in modo sempre più libero.",
    "remark-fading": "Dove le onde di una linea diminuiscono, diventare più stabili finché la linea è liscia.",
    "remark-straight": "Una linea retta è uno scivolamento uniforme da una nota alla successiva.",
    "remark-arrow": "Una linea con freccia è uno scivolamento uniforme che porta alla nota posta alla sua fine.",
    "remark-broken": "Una linea tratteggiata è un movimento soltanto suggerito, non eseguito per intero.",
    "remark-dotted": "Una linea punteggiata è un movimento appena presente: lasciarlo intuire.",
    "remark-stops": (
        "Una piccola testa tra parentesi indica l’altezza in cui una linea si ferma. Viene raggiunta in quel "
        "momento e non viene attaccata."
    ),
    "remark-stemless": (
        "Una testa senza gambo su una linea è un punto per cui la linea passa, al suo posto nel tempo."
    ),
    "remark-small-start": "Una piccola testa all’inizio di una linea si suona breve quanto si vuole.",
    "remark-partials": (
        "Le piccole teste lungo una linea sono gli armonici che essa attraversa; il loro ritmo non è misurato."
    ),
    "remark-band": (
        "Una fascia grigia con linee sottili ai bordi è il registro in cui suonare. Al suo interno le altezze "
        "sono approssimative, in proporzione al posto che occupano nella fascia."
    ),
    "remark-lines": (
        "Su tre linee non sono date altezze: le linee indicano grave, medio e acuto nel registro nominato."
    ),
    "remark-highest": "Un triangolo con la punta in alto è la nota più acuta possibile, qualunque essa sia.",
    "remark-lowest": "Un triangolo con la punta in basso è la nota più grave possibile, qualunque essa sia.",
    "remark-quarter-tones-stein": (
        "I quarti di tono hanno alterazioni proprie: un diesis con un solo gambo alza di un quarto di tono, uno "
        "con tre gambi di tre quarti; un bemolle rovesciato abbassa di un quarto di tono, un bemolle rovesciato "
        "unito a uno normale di tre quarti."
    ),
    "remark-quarter-tones-arrows": (
        "Una freccia sull’alterazione alza o abbassa di un quarto di tono, secondo la sua direzione."
    ),
    "remark-cents": (
        "I numeri con segno sopra una nota sono cent, come li mostra un accordatore: la distanza dalla nota "
        "temperata più vicina, nominata quando non è la nota scritta. Cento cent sono un semitono."
    ),
    "remark-accidentals-note": "Ogni alterazione vale solo per la nota che precede.",
    "remark-accidentals-bar": "Le alterazioni valgono per tutta la battuta, nella loro ottava.",
    "remark-fingerings": (
        "Sotto la nota sta una posizione quando non si intende quella abituale: prima il lato del corno, poi i "
        "pistoni."
    ),
    "remark-fingerings-valves": "Sotto la nota sta una posizione quando non si intende quella abituale.",
    "remark-positions": "Sotto la nota sta una posizione della coulisse quando non si intende quella abituale.",
    "remark-seconds": (
        "I gesti sotto una parentesi con un numero di secondi sono in tempo libero: la spaziatura mostra il "
        "tempo, da sinistra a destra, e nulla viene contato."
    ),
    "remark-accelerating": "Una travatura che si apre da una linea a più linee va accelerando.",
    "remark-slowing": "Travature che si chiudono da più linee a una sola vanno rallentando.",
    "remark-niente": "Un cerchio all’estremità di una forcella significa dal niente, oppure al niente.",
    "remark-words": (
        "Una parola sopra il pentagramma vale finché non viene annullata; una parola con linea tratteggiata vale "
        "fino al gancio che la termina."
    ),
    "remark-gradual": (
        "Due parole o due segni uniti da una freccia indicano un passaggio graduale dall’uno all’altro."
    ),
    "transposition-lower": "{instrument}: la parte suona {interval} più in basso di come è scritta.",
    "transposition-higher": "{instrument}: la parte suona {interval} più in alto di come è scritta.",
    "transposition-none": "{instrument}: la parte suona come è scritta.",
    "score-sounding": "Questa partitura è in do: tutte le altezze sono scritte come suonano.",
    "clef-horn-bass": (
        "La chiave di basso segue l’uso moderno: le note suonano al di sotto di quelle scritte tanto quanto nella "
        "chiave di violino."
    ),
    "interval-m2": "una seconda minore",
    "interval-M2": "una seconda maggiore",
    "interval-m3": "una terza minore",
    "interval-M3": "una terza maggiore",
    "interval-P4": "una quarta giusta",
    "interval-A4": "una quarta aumentata",
    "interval-d5": "una quinta diminuita",
    "interval-P5": "una quinta giusta",
    "interval-m6": "una sesta minore",
    "interval-M6": "una sesta maggiore",
    "interval-m7": "una settima minore",
    "interval-M7": "una settima maggiore",
    "interval-P8": "un’ottava",
    "interval-m9": "una nona minore",
    "interval-M9": "una nona maggiore",
    "interval-P15": "due ottave",
    "caution-decide": (
        "Spetta a te e al tuo insegnante decidere che cosa ti fa bene; una versione più facile è sempre permessa."
    ),
    "caution-tiring": (
        "Alcune di queste tecniche affaticano le labbra. Riscaldarsi prima, studiarle brevemente e con pause, "
        "togliere il bocchino dalle labbra nelle pause e fermarsi al primo dolore o intorpidimento."
    ),
    "caution-loud": (
        "Alcune di queste tecniche sono rumorose. Usare protezioni per l’udito, tenersi lontani dai padiglioni "
        "altrui, abbreviare le prove di questi passi e rispettare le norme locali sull’esposizione al rumore."
    ),
    "caution-flutter": (
        "Il frullato scuote le labbra: studiarlo brevemente e con pause, e suonare poi alcune note lunghe "
        "ordinarie."
    ),
    "caution-growl": (
        "Il growl affatica la gola: studiarlo brevemente e con pause, e fermarsi se la gola fa male o la voce "
        "diventa rauca."
    ),
    "caution-voice": (
        "Cantare con leggerezza, in un’ottava comoda per la voce, e fermarsi se la gola fa male o la voce diventa "
        "rauca."
    ),
    "caution-lip": (
        "Questo gesto impegna le labbra: prepararlo piano, studiarlo brevemente e con pause, e non premere di più "
        "il bocchino per forzarlo."
    ),
    "caution-pop": (
        "Colpire con leggerezza: un colpo forte blocca il bocchino nello strumento. Tenere lo strumento lontano "
        "dai denti."
    ),
    "draft": "BOZZA",
    "draft-notice": (
        "Bozza, non per l’esecuzione: quanto segue non è suonabile come scritto, o lo è solo con cautela."
    ),
    "refused-gesture": "«{title}» non figura qui perché non è suonabile come scritto.",
    "refused-passage": "«{title}» non figura qui perché contiene «{gesture}», che non è suonabile come scritto.",
}
