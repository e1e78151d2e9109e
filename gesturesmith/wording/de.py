"""Deutsch."""

TEXTS = {
    "heading-notes": "Spielanweisungen",
    "heading-general": "Allgemeines",
    "heading-transposition": "Transposition und Schlüssel",
    "heading-techniques": "Spieltechniken",
    "heading-signs": "Zeichen",
    "heading-gestures": "Gesten",
    "heading-passages": "Passagen",
    "heading-exercises": "Übungen",
    "heading-cautions": "Vorsicht",
    "heading-remarks": "Bemerkungen",
    "page-of": "Seite {page} von {pages}",
    "version-line": "Fassung {version}, {date}",
    "seconds": "s",
    "beat": "Schlag",
    "beats": "Schläge",
    "fingering": "Griff",
    "position": "Lage",
    "side": "{side}-Seite",
    "warm-up": "Einspielen",
    "preparation": "Vorübung",
    "rest": "Pause",
    "level": "Stufe {level}",
    "times": "{count}-mal",
    "see-note": "siehe Anmerkung {number}",
    "word-ordinary": "ord.",
    "word-sing": "singen",
    "word-play": "spielen",
    "mute-straight": "Straight",
    "mute-stopping": "Stopfdämpfer",
    "mute-cup": "Cup",
    "mute-harmon": "Harmon",
    "mute-plunger": "Plunger",
    "mute-bucket": "Bucket",
    "mute-practice": "Übedämpfer",
    "register-low": "tiefes Register",
    "register-middle": "mittleres Register",
    "register-high": "hohes Register",
    "register-top": "höchstes Register",
    "remark-approximate": (
        "Noten mit kreuzförmigem Kopf sind nur ungefähr in der Tonhöhe. In der Nähe der gezeigten Höhe spielen; "
        "die Gestalt der Geste ist wichtiger als der einzelne Ton."
    ),
    "remark-exact": "Noten mit gewöhnlichem Kopf sind genau in der Tonhöhe.",
    "remark-slash-head": "Noten mit Strichkopf haben nur einen Rhythmus; die Tonhöhe ist frei.",
    "remark-diamond-head": "Rautenförmige Köpfe zeigen den Griff und keinen voll klingenden Ton.",
    "remark-wavy": (
        "Eine Wellenlinie ist die Kontur der Geste: ihr durch ihre Punkte folgen, zu deren Zeiten. Nur diese "
        "Linie ist gewellt."
    ),
    "remark-growing": "Wo die Wellen einer Linie wachsen, sich immer freier um sie bewegen.",
    "remark-fading": "Wo die Wellen einer Linie abnehmen, ruhiger werden, bis die Linie glatt ist.",
    "remark-straight": "Eine gerade Linie ist ein gleichmäßiges Gleiten von einer Note zur nächsten.",
    "remark-arrow": "Eine Linie mit Pfeil ist ein gleichmäßiges Gleiten, das zu der Note an ihrem Ende führt.",
    "remark-broken": "Eine gestrichelte Linie ist eine Bewegung, die nur angedeutet und nicht ausgespielt wird.",
    "remark-dotted": "Eine gepunktete Linie ist eine Bewegung, die kaum da ist: sie nur ahnen lassen.",
    "remark-stops": (
        "Ein kleiner Kopf in Klammern zeigt die Tonhöhe, bei der eine Linie endet. Sie wird in diesem Augenblick "
        "erreicht und nicht angestoßen."
    ),
    "remark-stemless": (
        "Ein Kopf ohne Hals auf einer Linie ist ein Punkt, durch den die Linie geht, an seinem Ort in der Zeit."
    ),
    "remark-small-start": "Ein kleiner Kopf am Anfang einer Linie wird beliebig kurz gespielt.",
    "remark-partials": (
        "Kleine Köpfe entlang einer Linie sind die Naturtöne, durch die sie geht; ihr Rhythmus ist nicht "
        "festgelegt."
    ),
    "remark-band": (
        "Ein graues Feld mit dünnen Linien an den Rändern ist das Register, in dem zu spielen ist. Tonhöhen darin "
        "sind ungefähr, im Verhältnis zu ihrer Höhe im Feld."
    ),
    "remark-lines": (
        "Auf drei Linien sind keine Tonhöhen angegeben: Die Linien bedeuten tief, mittel und hoch im genannten "
        "Register."
    ),
    "remark-highest": "Ein Dreieck mit der Spitze nach oben ist der höchste spielbare Ton, welcher es auch sei.",
    "remark-lowest": "Ein Dreieck mit der Spitze nach unten ist der tiefste spielbare Ton, welcher es auch sei.",
    "remark-quarter-tones-stein": (
        "Vierteltöne haben eigene Vorzeichen: Ein Kreuz mit einem Hals erhöht um einen Viertelton, eines mit drei "
        "Hälsen um drei Vierteltöne; ein umgekehrtes B erniedrigt um einen Viertelton, ein umgekehrtes und ein "
        "gewöhnliches B zusammen um drei Vierteltöne."
    ),
    "remark-quarter-tones-arrows": (
        "Ein Pfeil am Vorzeichen erhöht oder erniedrigt um einen Viertelton, je nach seiner Richtung."
    ),
    "remark-cents": (
        "Zahlen mit Vorzeichen über einer Note sind Cent, wie ein Stimmgerät sie anzeigt: der Abstand vom "
        "nächsten Ton der gleichstufigen Stimmung, der genannt ist, wenn er nicht der notierte ist. Hundert Cent "
        "sind ein Halbton."
    ),
    "remark-accidentals-note": "Jedes Vorzeichen gilt nur für die Note, vor der es steht.",
    "remark-accidentals-bar": "Vorzeichen gelten für den Takt, in ihrer eigenen Oktave.",
    "remark-fingerings": (
        "Unter einer Note steht ein Griff, wo nicht der übliche gemeint ist: zuerst die Seite des Horns, dann die "
        "Ventile."
    ),
    "remark-fingerings-valves": "Unter einer Note steht ein Griff, wo nicht der übliche gemeint ist.",
    "remark-positions": "Unter einer Note steht eine Zuglage, wo nicht die übliche gemeint ist.",
    "remark-seconds": (
        "Gesten unter einer Klammer mit einer Zahl von Sekunden stehen in freier Zeit: Der Abstand zeigt die "
        "Zeit, von links nach rechts, und nichts wird gezählt."
    ),
    "remark-accelerating": "Ein Balken, der sich von einer Linie zu mehreren auffächert, wird schneller.",
    "remark-slowing": "Balken, die sich von mehreren Linien zu einer schließen, werden langsamer.",
    "remark-niente": "Ein Kreis am Ende einer Gabel bedeutet: aus dem Nichts oder ins Nichts.",
    "remark-words": (
        "Ein Wort über dem System gilt, bis es aufgehoben wird; ein Wort mit gestrichelter Linie gilt bis zum "
        "Haken an ihrem Ende."
    ),
    "remark-gradual": (
        "Zwei Wörter oder Zeichen mit einem Pfeil dazwischen bedeuten einen allmählichen Übergang vom einen zum "
        "anderen."
    ),
    "transposition-lower": "{instrument}: Die Stimme klingt {interval} tiefer als notiert.",
    "transposition-higher": "{instrument}: Die Stimme klingt {interval} höher als notiert.",
    "transposition-none": "{instrument}: Die Stimme klingt wie notiert.",
    "score-sounding": "Dies ist eine Partitur in C: Alle Tonhöhen sind notiert, wie sie klingen.",
    "clef-horn-bass": (
        "Der Bassschlüssel wird nach neuer Art gebraucht: Noten darin klingen ebenso weit unter den notierten wie "
        "Noten im Violinschlüssel."
    ),
    "interval-m2": "eine kleine Sekunde",
    "interval-M2": "eine große Sekunde",
    "interval-m3": "eine kleine Terz",
    "interval-M3": "eine große Terz",
    "interval-P4": "eine reine Quarte",
    "interval-A4": "eine übermäßige Quarte",
    "interval-d5": "eine verminderte Quinte",
    "interval-P5": "eine reine Quinte",
    "interval-m6": "eine kleine Sexte",
    "interval-M6": "eine große Sexte",
    "interval-m7": "eine kleine Septime",
    "interval-M7": "eine große Septime",
    "interval-P8": "eine Oktave",
    "interval-m9": "eine kleine None",
    "interval-M9": "eine große None",
    "interval-P15": "zwei Oktaven",
    "caution-decide": (
        "Was zuträglich ist, entscheiden die Spielenden und ihre Lehrkräfte; eine leichtere Fassung ist immer "
        "erlaubt."
    ),
    "caution-tiring": (
        "Einige dieser Techniken ermüden die Lippen. Vorher einspielen, kurz und mit Pausen üben, in den Pausen "
        "das Mundstück absetzen und bei Schmerz oder Taubheit sofort aufhören."
    ),
    "caution-loud": (
        "Einige dieser Techniken sind laut. Gehörschutz tragen, Abstand zu den Schalltrichtern anderer halten, "
        "solche Stellen nur kurz proben und die örtlichen Regeln zur Lärmbelastung beachten."
    ),
    "caution-flutter": (
        "Die Flatterzunge rüttelt an den Lippen: kurz und mit Pausen üben und danach einige einfache lange Töne "
        "spielen."
    ),
    "caution-growl": (
        "Das Growlen beansprucht die Kehle: kurz und mit Pausen üben und aufhören, wenn der Hals schmerzt oder "
        "die Stimme heiser wird."
    ),
    "caution-voice": (
        "Leicht singen, in einer Oktave, die der Stimme bequem liegt, und aufhören, wenn der Hals schmerzt oder "
        "die Stimme heiser wird."
    ),
    "caution-lip": (
        "Dies belastet die Lippen: leise vorbereiten, kurz und mit Pausen üben und nichts durch stärkeren "
        "Mundstückdruck erzwingen."
    ),
    "caution-pop": (
        "Leicht schlagen: Ein harter Schlag klemmt das Mundstück im Instrument fest. Das Instrument dabei von den "
        "Zähnen fernhalten."
    ),
    "draft": "ENTWURF",
    "draft-notice": (
        "Entwurf, nicht zur Aufführung: Folgendes ist so, wie es notiert ist, nicht oder nur mit Vorsicht spielbar."
    ),
    "refused-gesture": "„{title}“ fehlt hier, weil es so, wie es notiert ist, nicht spielbar ist.",
    "refused-passage": (
        "„{title}“ fehlt hier, weil darin „{gesture}“ vorkommt, das so, wie es notiert ist, nicht spielbar ist."
    ),
}
