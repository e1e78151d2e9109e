"""Italiano."""

TEXTS = {
    "heading-notes": "Note per l’esecuzione",
    "heading-general": "Osservazioni generali",
    "heading-transposition": "Trasposizione e chiavi",
    "heading-gestures": "Gesti",
    "heading-passages": "Passaggi",
    "heading-cautions": "Avvertenze",
    "heading-remarks": "Osservazioni",
    "group-motion": "Movimento dell’altezza",
    "group-edge": "Inizio e fine delle note",
    "group-valves": "Pistoni",
    "group-valves-slide": "Coulisse",
    "group-valves-single": "Armonici",
    "group-valves-both": "Pistoni e coulisse",
    "group-bell": "Al padiglione",
    "group-mouth": "Labbra, lingua e voce",
    "group-attack": "Attacchi",
    "group-heads": "Teste di nota",
    "group-lines": "Linee",
    "group-pitch": "Altezze",
    "group-time": "Tempo e dinamica",
    "group-breath": "Respiro e voce",
    "page-of": "pagina {page} di {pages}",
    "seconds": "s",
    "beat": "movimento",
    "beats": "movimenti",
    "quarter": "quarto",
    "quarters": "quarti",
    "warm-up": "Riscaldamento",
    "preparation": "Preparazione",
    "rest-after": "pausa {seconds} s",
    "chart-fingering-slide": "Posizioni della coulisse",
    "chart-fingering-single": "Armonici e suoni di mano",
    "chart-ladders-slide": "Armonici di ogni posizione della coulisse",
    "chart-ladders-single": "Serie degli armonici",
    "map-unpitched": "Senza altezza, quindi in qualsiasi registro: {techniques}.",
    "map-rare": "Solo con una sordina rara per questo strumento: {techniques}.",
    "map-missing": "Non su questo strumento: {techniques}.",
    "chart-fingering": "Tavola delle posizioni",
    "chart-quarter-tones": "Quarti di tono",
    "chart-ladders": "Armonici di ogni posizione",
    "chart-map": "Tecniche e registri",
    "chart-fingering-legend-valves": (
        "Sotto ogni nota la posizione abituale; in piccolo altre che danno la nota intonata. 0 significa nessun "
        "pistone."
    ),
    "chart-fingering-legend-slide": (
        "Sotto ogni nota la posizione abituale della coulisse; in piccolo altre che danno la nota intonata."
    ),
    "chart-fingering-legend-single": (
        "Sotto ogni nota il numero dell’armonico; + significa che la mano nel padiglione lo abbassa fino alla "
        "nota, o che la mano aperta lo lascia salire."
    ),
    "chart-quarter-tones-legend-valves": (
        "Sotto ogni nota la posizione e ciò che la intona, oppure tra parentesi lo scarto in cent (+ significa "
        "crescente); in piccolo altre che la danno intonata."
    ),
    "chart-quarter-tones-legend-slide": (
        "Sotto ogni nota la posizione della coulisse e ciò che la intona, oppure tra parentesi lo scarto in cent "
        "(+ significa crescente); in piccolo altre che la danno intonata."
    ),
    "chart-quarter-tones-legend-single": (
        "Sotto ogni nota il numero dell’armonico e ciò che la intona, oppure tra parentesi lo scarto in cent (+ "
        "significa crescente)."
    ),
    "chart-fingering-tube": "Armonici",
    "chart-fingering-legend-tube": "Sotto ogni nota il numero dell’armonico.",
    "chart-quarter-tones-legend-tube": (
        "Sotto ogni nota il numero dell’armonico e ciò che la intona, oppure tra parentesi lo scarto in cent (+ "
        "significa crescente)."
    ),
    "chart-attachments": "Il nome di nota prima della posizione è la fondamentale del tubo con le sue ritorte.",
    "chart-trigger": "T è la ritorta.",
    "chart-triggers": "T è la ritorta, TT entrambe le ritorte insieme.",
    "chart-care": "Le note con testa nera si ottengono solo con cautela.",
    "chart-missing": "Nessuna posizione dà le note tra parentesi.",
    "chart-missing-slide": "Nessuna posizione della coulisse dà le note tra parentesi.",
    "chart-sides": "F è il lato in fa del corno, Bb quello in si bemolle (con il pollice).",
    "chart-in-and-out": "Short significa un po’ più corta della posizione, long un po’ più lunga.",
    "chart-corrected": "Il numero dopo {means} dice di quanti cent la nota sale (+) o scende (−).",
    "chart-or": "o",
    "chart-ladders-legend": (
        "Sotto ogni nota il numero dell’armonico e lo scarto in cent dal temperamento equabile (+ significa "
        "crescente). Le teste nere si scostano di oltre {cents} cent; le note tra parentesi sono fuori di ciò che "
        "si suona di solito."
    ),
    "correction-lip": "labbra",
    "correction-slide": "coulisse",
    "correction-hand": "mano",
    "try-out": "Foglio di prova",
    "try-out-how": (
        "Suonare ogni riga una o due volte, dopo il riscaldamento, e segnare ciò che è vero oggi: bene, "
        "così anche in concerto; con riserva, occorrono preparazione o fortuna; no, non riesce. Fermarsi "
        "se fa male. Si può saltare; non ci sono risposte buone o cattive."
    ),
    "try-out-player": "Esecutore",
    "try-out-date": "Data",
    "answer-fine": "bene",
    "answer-care": "con riserva",
    "answer-no": "no",
    "cool-down": "Defaticamento",
    "plain-first": "Suonare ogni riga una volta senza la tecnica, poi come scritto.",
    "term": "Corso",
    "term-week": "Settimana",
    "term-date": "Dal",
    "term-new": "Novità",
    "term-tempi": "Tempi",
    "term-title": "Settimana {week}",
    "term-new-line": "nuovo",
    "term-from": "dalla settimana {week}",
    "term-again": "ancora una volta, dalla settimana {week}",
    "term-more": "{techniques}: altre righe",
    "term-revision": "Ripasso",
    "term-no-lesson": "nessuna lezione",
    "term-minutes": "Studio: {minutes} minuti alla settimana, un po’ ogni giorno.",
    "term-braces": "Con l’apparecchio ai denti: poco alla volta, poca pressione, e una pausa appena fa male.",
    "term-how": (
        "Una pagina alla settimana. Suonare ogni riga al tempo più lento, spuntarlo quando riesce, poi "
        "passare al successivo."
    ),
    "level": "Livello {level}",
    "players-a2": "a 2",
    "players-first": "1.",
    "players-second": "2.",
    "times": "{count} volte",
    "choose-one": "sceglierne uno",
    "choose-any-order": "ordine libero",
    "pace-as-fast-as-possible": "il più veloce possibile",
    "pace-irregular": "irregolare",
    "until-cue": "fino a «{cue}»",
    "until-cue-within": "fino a «{cue}», al massimo {length}",
    "unmeasured": "il più veloce possibile",
    "measured": "misurato",
    "said-of": "{titles}: {text}",
    "see-note": "{title}: vedi nota {number}.",
    "see-notes": "I numeri sopra le note rimandano alle note per l’esecuzione.",
    "mute-straight": "straight",
    "mute-stopping": "stopping",
    "mute-cup": "cup",
    "mute-harmon": "harmon",
    "mute-plunger": "plunger",
    "mute-bucket": "bucket",
    "mute-practice": "da studio",
    "mute-glass": "bicchiere",
    "mute-cloth": "panno",
    "register-low": "registro grave",
    "register-middle": "registro medio",
    "register-high": "registro acuto",
    "register-top": "registro sovracuto",
    "sign-approximate": "Altezza approssimativa",
    "sign-highest": "Nota più acuta",
    "sign-lowest": "Nota più grave",
    "sign-slash-head": "Solo ritmo",
    "sign-diamond-head": "Testa a rombo",
    "sign-stops": "Fine di una linea",
    "sign-stemless": "Punto su una linea",
    "sign-small-start": "Piccola testa all’inizio",
    "sign-wavy": "Linea ondulata",
    "sign-growing": "Onde in aumento",
    "sign-fading": "Onde in diminuzione",
    "sign-straight": "Linea retta",
    "sign-arrow": "Linea con freccia",
    "sign-broken": "Linea tratteggiata",
    "sign-dotted": "Linea punteggiata",
    "sign-gradual": "Passaggio graduale",
    "sign-band": "Fascia di registro",
    "sign-lines": "Tre linee",
    "sign-quarter-tones-stein": "Alterazioni di quarto di tono",
    "sign-quarter-tones-arrows": "Alterazioni di quarto di tono",
    "sign-eighth-tones": "Alterazioni di ottavo di tono",
    "sign-second-note": "Seconda nota tra parentesi",
    "sign-cents": "Cent",
    "sign-seconds": "Tempo libero",
    "sign-beats": "Durata in movimenti",
    "sign-strokes": "Tagli sull’asta",
    "sign-unmeasured": "Ripetizione non misurata",
    "sign-graces": "Acciaccature",
    "sign-graces-after": "Note piccole finali",
    "sign-accelerating": "Accelerando",
    "sign-slowing": "Rallentando",
    "sign-niente": "Dal niente, al niente",
    "sign-ad-lib": "Ad lib.",
    "sign-syllable": "Sillaba",
    "sign-breathing": "Inspirare ed espirare",
    "remark-approximate": (
        "Le note con testa a croce hanno altezza approssimativa. Suonare vicino all’altezza indicata; la forma "
        "del gesto conta più della singola altezza."
    ),
    "remark-exact": "Le note con testa normale hanno altezza esatta.",
    "remark-slash-head": "Le note con testa a barra indicano solo il ritmo; l’altezza è libera.",
    "remark-diamond-head": "Le teste a rombo indicano la posizione e non un suono pieno.",
    "remark-diamond-head-slide": "Le teste a rombo indicano la posizione della coulisse e non un suono pieno.",
    "remark-diamond-head-single": "Le teste a rombo indicano l’altezza e non un suono pieno.",
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
        "Una testa senza asta su una linea è un punto per cui la linea passa, al suo posto nel tempo."
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
        "I quarti di tono hanno alterazioni proprie: un diesis con una sola asta alza di un quarto di tono, uno "
        "con tre aste di tre quarti; un bemolle rovesciato abbassa di un quarto di tono, un bemolle rovesciato "
        "unito a uno normale di tre quarti."
    ),
    "remark-quarter-tones-arrows": (
        "Una freccia sull’alterazione alza o abbassa di un quarto di tono, secondo la sua direzione."
    ),
    "remark-eighth-tones": (
        "Una freccia sull’alterazione alza o abbassa di un ottavo di tono (25 cent), secondo la sua direzione."
    ),
    "remark-second-note": "Una piccola testa tra parentesi dopo una nota è l’altra nota del suo trillo o shake.",
    "remark-cents": (
        "I numeri con segno sopra una nota sono cent, come li mostra un accordatore: la distanza dalla nota "
        "temperata più vicina, nominata quando non è la nota scritta. Cento cent sono un semitono."
    ),
    "remark-accidentals-note": "Ogni alterazione vale solo per la nota che precede.",
    "remark-accidentals-bar": "Le alterazioni valgono per tutta la battuta, nella loro ottava.",
    "remark-accidentals-both": (
        "Dove ci sono stanghette, le alterazioni valgono per tutta la battuta, nella loro ottava; altrove ognuna "
        "vale solo per la nota che precede."
    ),
    "remark-fingerings": (
        "Sotto la nota sta una posizione quando non si intende quella abituale: prima il lato del corno, poi i "
        "cilindri."
    ),
    "remark-fingerings-valves": "Sotto la nota sta una posizione quando non si intende quella abituale.",
    "remark-positions": "Sotto la nota sta una posizione della coulisse quando non si intende quella abituale.",
    "remark-seconds": (
        "I gesti sotto una parentesi con un numero di secondi sono in tempo libero: la spaziatura mostra il "
        "tempo, da sinistra a destra, e nulla viene contato. Una pausa tra di essi è silenzio lungo quanto il suo "
        "spazio."
    ),
    "remark-beats": (
        "I gesti sotto una parentesi con un numero di movimenti durano altrettanto; non vi sono valori di "
        "nota, e la spaziatura mostra il tempo, da sinistra a destra."
    ),
    "remark-box": (
        "Ripetere liberamente ciò che sta nel riquadro per tutta la durata indicata dalla linea con la "
        "freccia; poi proseguire subito, dovunque ci si trovi. Fra più riquadri scegliere come dicono le "
        "parole."
    ),
    "remark-strokes": (
        "Ripetere la nota nei valori indicati dai tagli sull’asta: un taglio crome, due semicrome, tre biscrome."
    ),
    "remark-unmeasured": (
        "Con queste parole tre tagli sull’asta chiedono di ripetere la nota il più velocemente "
        "possibile, senza ritmo fisso."
    ),
    "remark-graces": (
        "Suonare le note piccole con l’asta tagliata il più rapidamente possibile, subito prima della "
        "nota a cui portano."
    ),
    "remark-graces-after": "Le note piccole dopo una nota cadono proprio alla fine della sua durata.",
    "remark-accelerating": "Una travatura che si apre da una linea a più linee va accelerando.",
    "remark-slowing": "Travature che si chiudono da più linee a una sola vanno rallentando.",
    "remark-niente": "Un cerchio all’estremità di una forcella significa dal niente, oppure al niente.",
    "remark-ad-lib": (
        "Da «ad lib.» in poi il profilo è solo un suggerimento: disegnarne uno proprio, all’incirca "
        "nello stesso registro e nella stessa durata."
    ),
    "remark-syllable": (
        "Una sillaba sotto una nota o una pausa va detta o soffiata in quel punto, con i suoni della "
        "propria lingua: dà forma all’aria e all’attacco. Sotto una pausa, pronunciarla lontano dallo "
        "strumento."
    ),
    "remark-breathing": (
        "Una freccia verso un breve tratto verticale, che sta per le labbra, significa inspirare in modo "
        "udibile; una freccia che se ne allontana, espirare. Su una nota di sola aria l’aria passa per lo "
        "strumento, su una pausa no."
    ),
    "remark-words": (
        "Una parola sopra il pentagramma vale finché non viene annullata, ed è ripetuta all’inizio di un sistema; "
        "una parola con linea tratteggiata vale fino al gancio che la termina."
    ),
    "remark-gradual": (
        "Due parole o due segni uniti da una freccia indicano un passaggio graduale dall’uno all’altro."
    ),
    "transposition-lower": "{instrument}: la parte suona {interval} più in basso di come è scritta.",
    "transposition-higher": "{instrument}: la parte suona {interval} più in alto di come è scritta.",
    "transposition-none": "{instrument}: la parte suona come è scritta.",
    "score-sounding": "Questa partitura è in do: tutte le altezze sono scritte come suonano.",
    "score-written": "Partitura con strumenti traspositori: ogni rigo è scritto come nella sua parte.",
    "score": "Partitura",
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
        "Alcune di queste tecniche sono molto sonore. Usare protezioni per l’udito, tenersi lontani dai padiglioni "
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
    "caution-voice": "Cantare con leggerezza, e fermarsi se la gola fa male o la voce diventa rauca.",
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
        "Bozza, non per l’esecuzione: quanto segue non è eseguibile come scritto, o lo è solo con cautela."
    ),
    "verdict-playable": "eseguibile",
    "verdict-with-care": "con cautela",
    "verdict-not-as-written": "non come scritto",
    "draft-more": "e altre {count}: la verifica le elenca tutte",
    "refused-gesture": "«{title}» non figura qui perché non è eseguibile come scritto.",
    "unread-gesture": "«{title}» manca qui: il suo testo, o quello di ciò che vi si suona, non è leggibile.",
    # A gesture in words, for those who cannot see the page.
    "decimal": ",",
    "say-gesture": "{title}: {techniques}, {length}.",
    "say-passage": "{title}: passaggio, {meter}, {length}: {items}.",
    "say-free-meter": "senza misura",
    "say-beat": "{number} movimento",
    "say-beats": "{number} movimenti",
    "say-seconds": "{number} secondi",
    "say-point": "{point} a {time}",
    "say-about": "circa {pitch}",
    "say-percent": "{number} % del registro",
    "say-highest": "nota più acuta possibile",
    "say-lowest": "nota più grave possibile",
    "say-silence": "silenzio",
    "say-as": "come {technique}",
    "say-without": "senza {technique}",
    "say-straight": "in linea retta fino a {point}",
    "say-wavy": "lungo una linea ondulata fino a {point}",
    "say-broken": "lungo una linea tratteggiata fino a {point}",
    "say-dotted": "lungo una linea punteggiata fino a {point}",
    "say-arrow": "lungo una freccia fino a {point}",
    "say-slur": "legato a {point}",
    "say-none": "poi {point}",
    "say-growing": "in aumento",
    "say-fading": "in diminuzione",
    "say-accent": "accento",
    "say-staccato": "staccato",
    "say-tenuto": "tenuto",
    "say-marcato": "marcato",
    "say-fermata": "corona",
    "say-breath": "respiro",
    "say-box": "in un riquadro: {items}; ripetuto per {length}",
    "say-box-cue": "in un riquadro: {items}; ripetuto fino a «{cue}»",
    "say-eighths": "{point}, ripetuto in crome",
    "say-sixteenths": "{point}, ripetuto in semicrome",
    "say-thirty-seconds": "{point}, ripetuto in biscrome",
    "say-unmeasured": "{point}, ripetuto il più velocemente possibile",
    "say-graces-before": "{point}, preceduto dalle note piccole {notes}",
    "say-graces-after": "{point}, seguito dalle note piccole {notes}",
    "say-inhale": "inspirando",
    "say-exhale": "espirando",
    "say-open": "aperto",
    "say-trill": "trillato con {pitch}",
    "say-words": "con le parole «{text}»",
    "say-syllable": "sulla sillaba «{text}»",
    "say-attacks": "{count} attacchi.",
    "say-attacks-accelerating": "{count} attacchi, sempre più veloci.",
    "say-attacks-slowing": "{count} attacchi, sempre più lenti.",
    "say-speed": "Velocità {course}.",
    "say-width": "Ampiezza {course}.",
    "wave-slow": "lenta",
    "wave-medium": "media",
    "wave-fast": "rapida",
    "wave-narrow": "stretta",
    "wave-wide": "ampia",
    "wave-per-second": "{number} al secondo",
    "wave-course-to": "fino a {next}",
    "wave-course-then": "poi {next}",
    "say-dynamics": "Dinamica {levels}.",
    "say-swell": "crescendo fino a {level}",
    "say-fade": "diminuendo fino a {level}",
    "say-then": "poi {level}",
    "say-niente": "niente",
    "say-rest": "pausa di {length}",
    "say-note": "{pitch} per {length}",
    "say-rest-held": "pausa di {length}, corona",
    "say-pickup": "levare di {length}",
    "say-key": "tonalità di {name}",
    "say-no-key": "senza armatura",
    "say-major": "{tonic} maggiore",
    "say-minor": "{tonic} minore",
    "say-tempo": "tempo {number}",
    "say-tempo-words": "«{words}», tempo {number}",
    "say-accelerando": "da qui sempre più veloce fino al tempo {number} in {length}",
    "say-ritardando": "da qui sempre più lento fino al tempo {number} in {length}",
    "say-meter": "metro {meter}",
    "say-mark": "lettera di prova {mark}",
    "say-double-bar": "doppia stanghetta",
}
