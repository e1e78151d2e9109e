"""Deutsch."""

TEXTS = {
    "heading-notes": "Spielanweisungen",
    "heading-general": "Allgemeines",
    "heading-transposition": "Transposition und Schlüssel",
    "heading-gestures": "Gesten",
    "heading-passages": "Passagen",
    "heading-cautions": "Zur Gesundheit",
    "heading-remarks": "Bemerkungen",
    "group-motion": "Bewegung der Tonhöhe",
    "group-edge": "Anfang und Ende von Tönen",
    "group-valves": "Ventile",
    "group-valves-slide": "Zug",
    "group-valves-single": "Naturtöne",
    "group-valves-both": "Ventile und Zug",
    "group-bell": "Am Schalltrichter",
    "group-mouth": "Lippen, Zunge und Stimme",
    "group-attack": "Anstoß",
    "group-heads": "Notenköpfe",
    "group-lines": "Linien",
    "group-pitch": "Tonhöhe",
    "group-time": "Zeit und Dynamik",
    "group-breath": "Atem und Stimme",
    "page-of": "Seite {page} von {pages}",
    "seconds": "s",
    "beat": "Schlag",
    "beats": "Schläge",
    "quarter": "Viertel",
    "quarters": "Viertel",
    "warm-up": "Einspielen",
    "preparation": "Vorübung",
    "rest-after": "{seconds} s Pause",
    "chart-fingering-slide": "Zugtabelle",
    "chart-fingering-single": "Naturtöne und Stopftöne",
    "chart-ladders-slide": "Naturtöne aller Lagen",
    "chart-ladders-single": "Naturtonreihe",
    "map-unpitched": "Ohne Tonhöhe und daher in jedem Register: {techniques}.",
    "map-rare": "Nur mit einem Dämpfer, den es dafür kaum gibt: {techniques}.",
    "map-missing": "Nicht auf diesem Instrument: {techniques}.",
    "chart-fingering": "Grifftabelle",
    "chart-quarter-tones": "Vierteltöne",
    "chart-ladders": "Naturtöne aller Griffe",
    "chart-map": "Spieltechniken und Register",
    "chart-fingering-legend-valves": (
        "Unter jeder Note der übliche Griff; kleiner andere, die den Ton sauber geben. 0 heißt kein Ventil."
    ),
    "chart-fingering-legend-slide": (
        "Unter jeder Note die übliche Lage des Zugs; kleiner andere, die den Ton sauber geben."
    ),
    "chart-fingering-legend-single": (
        "Unter jeder Note die Zahl des Naturtons; + heißt, dass die Hand im Schalltrichter ihn zur Note "
        "herabzieht, o, dass die offene Hand ihn hinauflässt."
    ),
    "chart-quarter-tones-legend-valves": (
        "Unter jeder Note der Griff und was sie stimmt, oder in Klammern, um wie viele Cent sie abweicht (+ ist zu "
        "hoch); kleiner andere, die sie sauber geben."
    ),
    "chart-quarter-tones-legend-slide": (
        "Unter jeder Note die Lage des Zugs und was sie stimmt, oder in Klammern, um wie viele Cent sie abweicht "
        "(+ ist zu hoch); kleiner andere, die sie sauber geben."
    ),
    "chart-quarter-tones-legend-single": (
        "Unter jeder Note die Zahl des Naturtons und was sie stimmt, oder in Klammern, um wie viele Cent er "
        "abweicht (+ ist zu hoch)."
    ),
    "chart-fingering-tube": "Naturtöne",
    "chart-fingering-legend-tube": "Unter jeder Note die Zahl des Naturtons.",
    "chart-quarter-tones-legend-tube": (
        "Unter jeder Note die Zahl des Naturtons und was sie stimmt, oder in Klammern, um wie viele Cent er "
        "abweicht (+ ist zu hoch)."
    ),
    "chart-attachments": "Der Tonname vor der Lage ist der Grundton des Rohrs mit seinen Ventilen.",
    "chart-trigger": "T steht für das Quartventil.",
    "chart-triggers": "T steht für das Quartventil, TT für beide Ventile zusammen.",
    "chart-care": "Noten mit schwarzem Kopf gelingen nur bedingt.",
    "chart-missing": "Eingeklammerte Noten gibt kein Griff.",
    "chart-missing-slide": "Eingeklammerte Noten gibt keine Lage.",
    "chart-sides": "F steht für die F-Seite des Horns, Bb für die B-Seite (mit dem Daumenventil).",
    "chart-in-and-out": "Short ist die hohe, etwas kürzere Lage, long die tiefe, etwas längere.",
    "chart-corrected": "Die Zahl nach {means} sagt, um wie viele Cent der Ton damit steigt (+) oder fällt (−).",
    "chart-or": "oder",
    "chart-ladders-legend": (
        "Unter jeder Note die Zahl des Naturtons und um wie viele Cent er von der gleichstufigen Stimmung abweicht "
        "(+ ist zu hoch). Schwarze Köpfe weichen um mehr als {cents} Cent ab; eingeklammerte Noten liegen "
        "außerhalb dessen, was üblicherweise gespielt wird."
    ),
    "correction-lip": "Lippe",
    "correction-slide": "Zug",
    "correction-hand": "Hand",
    "try-out": "Ausprobierblatt",
    "try-out-how": (
        "Jede Zeile eingespielt ein- oder zweimal spielen und ankreuzen, was heute stimmt: gut heißt, so "
        "auch im Konzert; bedingt, mit Vorbereitung oder Glück; nein, es geht nicht. Aufhören, wo es weh "
        "tut. Auslassen ist erlaubt; es gibt keine guten oder schlechten Antworten."
    ),
    "try-out-player": "Gespielt von",
    "try-out-date": "Datum",
    "answer-fine": "gut",
    "answer-care": "bedingt",
    "answer-no": "nein",
    "cool-down": "Ausspielen",
    "plain-first": "Jede Zeile einmal ohne die Technik spielen, dann wie notiert.",
    "term": "Lehrgang",
    "term-week": "Woche",
    "term-date": "Ab",
    "term-new": "Neu",
    "term-tempi": "Tempo",
    "term-title": "{week}. Woche",
    "term-new-line": "neu",
    "term-from": "aus der {week}. Woche",
    "term-again": "noch einmal, aus der {week}. Woche",
    "term-more": "{techniques}: weitere Zeilen",
    "term-revision": "Wiederholung des Gelernten",
    "term-no-lesson": "kein Unterricht",
    "term-minutes": "Üben: {minutes} Minuten in der Woche, jeden Tag ein wenig.",
    "term-braces": "Mit Zahnspange: kurze Abschnitte, wenig Druck und eine Pause, sobald es schmerzt.",
    "term-how": (
        "Eine Seite je Woche. Jede Zeile im langsamsten Tempo spielen, abhaken, wenn sie gelingt, dann "
        "das nächste nehmen."
    ),
    "level": "Stufe {level}",
    "players-a2": "zu 2",
    "players-first": "1.",
    "players-second": "2.",
    "times": "{count}-mal",
    "choose-one": "einen auswählen",
    "choose-any-order": "beliebige Reihenfolge",
    "pace-as-fast-as-possible": "so schnell wie möglich",
    "pace-irregular": "unregelmäßig",
    "until-cue": "bis „{cue}“",
    "until-cue-within": "bis „{cue}“, in höchstens {length}",
    "unmeasured": "so schnell wie möglich",
    "measured": "gemessen",
    "said-of": "{titles}: {text}",
    "see-note": "{title}: siehe Anmerkung {number}.",
    "see-notes": "Die Nummern über den Noten verweisen auf die Spielanweisungen.",
    "mute-straight": "Straight",
    "mute-stopping": "Stopfdämpfer",
    "mute-cup": "Cup",
    "mute-harmon": "Harmon",
    "mute-plunger": "Plunger",
    "mute-bucket": "Bucket",
    "mute-practice": "Übedämpfer",
    "mute-glass": "Glas",
    "mute-cloth": "Tuch",
    "register-low": "tiefes Register",
    "register-middle": "mittleres Register",
    "register-high": "hohes Register",
    "register-top": "höchstes Register",
    "sign-approximate": "Ungefähre Tonhöhe",
    "sign-highest": "Höchster Ton",
    "sign-lowest": "Tiefster Ton",
    "sign-slash-head": "Nur Rhythmus",
    "sign-diamond-head": "Rautenförmiger Kopf",
    "sign-stops": "Ende einer Linie",
    "sign-stemless": "Punkt auf einer Linie",
    "sign-small-start": "Kleiner Kopf am Anfang",
    "sign-wavy": "Wellenlinie",
    "sign-growing": "Wachsende Wellen",
    "sign-fading": "Abnehmende Wellen",
    "sign-straight": "Gerade Linie",
    "sign-arrow": "Linie mit Pfeil",
    "sign-broken": "Gestrichelte Linie",
    "sign-dotted": "Gepunktete Linie",
    "sign-gradual": "Allmählicher Übergang",
    "sign-band": "Registerfeld",
    "sign-lines": "Drei Linien",
    "sign-quarter-tones-stein": "Vierteltonvorzeichen",
    "sign-quarter-tones-arrows": "Vierteltonvorzeichen",
    "sign-eighth-tones": "Achteltonvorzeichen",
    "sign-second-note": "Zweiter Ton in Klammern",
    "sign-cents": "Cent",
    "sign-seconds": "Freie Zeit",
    "sign-beats": "Dauer in Schlägen",
    "sign-strokes": "Striche durch den Hals",
    "sign-unmeasured": "Ungemessene Tonwiederholung",
    "sign-graces": "Vorschläge",
    "sign-graces-after": "Nachschläge",
    "sign-accelerating": "Schneller werdend",
    "sign-slowing": "Langsamer werdend",
    "sign-niente": "Aus dem Nichts, ins Nichts",
    "sign-ad-lib": "Ad lib.",
    "sign-syllable": "Silbe",
    "sign-breathing": "Ein- und Ausatmen",
    "remark-approximate": (
        "Noten mit kreuzförmigem Kopf sind nur ungefähr in der Tonhöhe. In der Nähe der gezeigten Höhe spielen; "
        "die Gestalt der Geste ist wichtiger als der einzelne Ton."
    ),
    "remark-exact": "Noten mit gewöhnlichem Kopf sind genau in der Tonhöhe.",
    "remark-slash-head": "Noten mit Schrägstrichkopf haben nur einen Rhythmus; die Tonhöhe ist frei.",
    "remark-diamond-head": "Rautenförmige Köpfe zeigen den Griff und keinen voll klingenden Ton.",
    "remark-diamond-head-slide": "Rautenförmige Köpfe zeigen die Lage und keinen voll klingenden Ton.",
    "remark-diamond-head-single": "Rautenförmige Köpfe zeigen die Höhe und keinen voll klingenden Ton.",
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
        "Vierteltöne haben eigene Vorzeichen: Ein Kreuz mit einem senkrechten Strich erhöht um einen "
        "Viertelton, eines mit drei Strichen um drei Vierteltöne; ein umgekehrtes B erniedrigt um einen "
        "Viertelton, ein umgekehrtes und ein gewöhnliches B zusammen um drei Vierteltöne."
    ),
    "remark-quarter-tones-arrows": (
        "Ein Pfeil am Vorzeichen erhöht oder erniedrigt um einen Viertelton, je nach seiner Richtung."
    ),
    "remark-eighth-tones": (
        "Ein Pfeil am Vorzeichen erhöht oder erniedrigt je nach Richtung um einen Achtelton (25 Cent)."
    ),
    "remark-second-note": "Ein kleiner Kopf in Klammern nach einer Note ist der andere Ton von Triller oder Shake.",
    "remark-cents": (
        "Zahlen mit Vorzeichen über einer Note sind Cent, wie ein Stimmgerät sie anzeigt: der Abstand vom "
        "nächsten Ton der gleichstufigen Stimmung, der genannt ist, wenn er nicht der notierte ist. Hundert Cent "
        "sind ein Halbton."
    ),
    "remark-accidentals-note": "Jedes Vorzeichen gilt nur für die Note, vor der es steht.",
    "remark-accidentals-bar": "Vorzeichen gelten für den Takt, in ihrer eigenen Oktave.",
    "remark-accidentals-both": (
        "Wo Taktstriche stehen, gelten Vorzeichen für den Takt, in ihrer eigenen Oktave; sonst gilt jedes nur für "
        "die Note, vor der es steht."
    ),
    "remark-fingerings": (
        "Unter einer Note steht ein Griff, wo nicht der übliche gemeint ist: zuerst die Seite des Horns, dann die "
        "Ventile."
    ),
    "remark-fingerings-valves": "Unter einer Note steht ein Griff, wo nicht der übliche gemeint ist.",
    "remark-positions": "Unter einer Note steht eine Lage, wo nicht die übliche gemeint ist.",
    "remark-seconds": (
        "Gesten unter einer Klammer mit einer Zahl von Sekunden stehen in freier Zeit: Der Abstand zeigt die "
        "Zeit, von links nach rechts, und nichts wird gezählt. Eine Pause darunter ist Stille, so lang wie ihr "
        "Platz."
    ),
    "remark-beats": (
        "Gesten unter einer Klammer mit einer Zahl von Schlägen dauern so lange; in ihnen stehen keine Notenwerte, "
        "und der Abstand zeigt die Zeit, von links nach rechts."
    ),
    "remark-box": (
        "Was in einem Kasten steht, im eigenen Zeitmaß wiederholen, so lange die Linie mit dem Pfeil "
        "angibt; dann sofort weiter, wo auch immer man ist. Unter mehreren Kästen wählen, wie die Worte "
        "sagen."
    ),
    "remark-strokes": (
        "Die Note in den Werten wiederholen, für die die Striche durch den Hals stehen: ein Strich "
        "Achtel, zwei Sechzehntel, drei Zweiunddreißigstel."
    ),
    "remark-unmeasured": (
        "Mit diesen Worten bedeuten drei Striche durch den Hals, die Note so schnell wie möglich zu "
        "wiederholen, ohne festen Rhythmus."
    ),
    "remark-graces": (
        "Kleine Noten mit durchstrichenem Hals so schnell wie möglich spielen, kurz vor der Note, zu "
        "der sie führen."
    ),
    "remark-graces-after": "Kleine Noten nach einer Note kommen ganz am Ende ihrer Dauer.",
    "remark-accelerating": "Ein Balken, der sich von einer Linie zu mehreren auffächert, wird schneller.",
    "remark-slowing": "Balken, die sich von mehreren Linien zu einer schließen, werden langsamer.",
    "remark-niente": "Ein Kreis am Ende einer Gabel bedeutet: aus dem Nichts oder ins Nichts.",
    "remark-ad-lib": (
        "Ab „ad lib.“ ist der Verlauf nur ein Vorschlag: einen eigenen spielen, etwa in derselben Lage und Zeit."
    ),
    "remark-syllable": (
        "Eine Silbe unter einer Note oder Pause wird dort gesprochen oder gehaucht, ihre Laute wie in der "
        "eigenen Sprache: Luft und Anstoß damit formen. Unter einer Pause wird sie ohne das Instrument "
        "gesprochen."
    ),
    "remark-breathing": (
        "Ein Pfeil zu einem kurzen senkrechten Strich, der für die Lippen steht, bedeutet hörbar einatmen, "
        "ein Pfeil von ihm weg ausatmen. Über einer Note nur mit Luft geht die Luft durch das Instrument, "
        "über einer Pause nicht."
    ),
    "remark-words": (
        "Ein Wort über dem System gilt, bis es aufgehoben wird, und steht zu Beginn eines Systems wieder; ein Wort "
        "mit gestrichelter Linie gilt bis zum Haken an ihrem Ende."
    ),
    "remark-gradual": (
        "Zwei Wörter oder Zeichen mit einem Pfeil dazwischen bedeuten einen allmählichen Übergang vom einen zum "
        "anderen."
    ),
    "transposition-lower": "{instrument}: Die Stimme klingt {interval} tiefer als notiert.",
    "transposition-higher": "{instrument}: Die Stimme klingt {interval} höher als notiert.",
    "transposition-none": "{instrument}: Die Stimme klingt wie notiert.",
    "score-sounding": "Dies ist eine Partitur in C: Alle Tonhöhen sind notiert, wie sie klingen.",
    "score-written": "Dies ist eine transponierte Partitur: Jede Zeile ist notiert wie in ihrer Stimme.",
    "score": "Partitur",
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
        "Die Flatterzunge belastet den Ansatz: kurz und mit Pausen üben und danach einige einfache lange Töne "
        "spielen."
    ),
    "caution-growl": (
        "Das Growlen beansprucht die Kehle: kurz und mit Pausen üben und aufhören, wenn der Hals schmerzt oder "
        "die Stimme heiser wird."
    ),
    "caution-voice": "Leicht singen und aufhören, wenn der Hals schmerzt oder die Stimme heiser wird.",
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
        "Entwurf, nicht zur Aufführung: Folgendes ist so, wie es notiert ist, nicht oder nur bedingt spielbar."
    ),
    "verdict-playable": "spielbar",
    "verdict-with-care": "nur bedingt spielbar",
    "verdict-not-as-written": "nicht wie notiert",
    "draft-more": "und {count} weitere: Die Prüfung nennt alle",
    "refused-gesture": "„{title}“ fehlt hier, weil es so, wie es notiert ist, nicht spielbar ist.",
    "unread-gesture": "„{title}“ fehlt hier: Der Text dazu, oder zu etwas darin Gespieltem, war nicht lesbar.",
    # A gesture in words, for those who cannot see the page.
    "decimal": ",",
    "say-gesture": "{title}: {techniques}, {length}.",
    "say-passage": "{title}: Passage, {meter}, {length}: {items}.",
    "say-free-meter": "ohne Takt",
    "say-beat": "{number} Schlag",
    "say-beats": "{number} Schläge",
    "say-seconds": "{number} Sekunden",
    "say-point": "{point} bei {time}",
    "say-about": "etwa {pitch}",
    "say-percent": "{number} % des Registers",
    "say-highest": "höchstmöglicher Ton",
    "say-lowest": "tiefstmöglicher Ton",
    "say-silence": "Stille",
    "say-as": "als {technique}",
    "say-without": "ohne {technique}",
    "say-straight": "gerade gleitend nach {point}",
    "say-wavy": "auf einer Wellenlinie nach {point}",
    "say-broken": "auf einer gestrichelten Linie nach {point}",
    "say-dotted": "auf einer gepunkteten Linie nach {point}",
    "say-arrow": "auf einem Pfeil nach {point}",
    "say-slur": "gebunden nach {point}",
    "say-none": "dann {point}",
    "say-growing": "zunehmend",
    "say-fading": "abnehmend",
    "say-accent": "Akzent",
    "say-staccato": "Staccato",
    "say-tenuto": "Tenuto",
    "say-marcato": "Marcato",
    "say-fermata": "Fermate",
    "say-breath": "Atemzeichen",
    "say-box": "im Kasten: {items}; {length} lang wiederholt",
    "say-box-cue": "im Kasten: {items}; wiederholt bis „{cue}“",
    "say-eighths": "{point}, in Achteln wiederholt",
    "say-sixteenths": "{point}, in Sechzehnteln wiederholt",
    "say-thirty-seconds": "{point}, in Zweiunddreißigsteln wiederholt",
    "say-unmeasured": "{point}, so schnell wie möglich wiederholt",
    "say-graces-before": "{point}, davor Vorschlag: {notes}",
    "say-graces-after": "{point}, danach Nachschlag: {notes}",
    "say-inhale": "einatmend",
    "say-exhale": "ausatmend",
    "say-open": "offen",
    "say-trill": "mit Triller nach {pitch}",
    "say-words": "mit den Worten „{text}“",
    "say-syllable": "auf der Silbe „{text}“",
    "say-attacks": "{count} Anstöße.",
    "say-attacks-accelerating": "{count} Anstöße, schneller werdend.",
    "say-attacks-slowing": "{count} Anstöße, langsamer werdend.",
    "say-speed": "Tempo der Wellen {course}.",
    "say-width": "Breite {course}.",
    "wave-slow": "langsam",
    "wave-medium": "mittel",
    "wave-fast": "schnell",
    "wave-narrow": "eng",
    "wave-wide": "weit",
    "wave-per-second": "{number} in der Sekunde",
    "wave-course-to": "bis {next}",
    "wave-course-then": "dann {next}",
    "say-dynamics": "Dynamik {levels}.",
    "say-swell": "zunehmend bis {level}",
    "say-fade": "abnehmend bis {level}",
    "say-then": "dann {level}",
    "say-niente": "niente",
    "say-rest": "Pause für {length}",
    "say-note": "{pitch} für {length}",
    "say-rest-held": "Pause für {length}, Fermate",
    "say-pickup": "Auftakt von {length}",
    "say-key": "Tonart {name}",
    "say-no-key": "keine Vorzeichen",
    "say-major": "{tonic} Dur",
    "say-minor": "{tonic} Moll",
    "say-tempo": "Tempo {number}",
    "say-tempo-words": "„{words}“, Tempo {number}",
    "say-accelerando": "ab hier schneller bis Tempo {number} über {length}",
    "say-ritardando": "ab hier langsamer bis Tempo {number} über {length}",
    "say-meter": "Takt {meter}",
    "say-mark": "Studierzeichen {mark}",
    "say-double-bar": "Doppelstrich",
}
