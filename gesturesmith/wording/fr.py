"""Français."""

TEXTS = {
    "heading-notes": "Notes d’exécution",
    "heading-general": "Remarques générales",
    "heading-transposition": "Transposition et clefs",
    "heading-gestures": "Gestes",
    "heading-passages": "Passages",
    "heading-cautions": "Précautions",
    "heading-remarks": "Remarques",
    "group-motion": "Mouvement de la hauteur",
    "group-edge": "Début et fin des notes",
    "group-valves": "Pistons",
    "group-valves-slide": "Coulisse",
    "group-valves-single": "Harmoniques",
    "group-valves-both": "Pistons et coulisse",
    "group-bell": "Au pavillon",
    "group-mouth": "Lèvres, langue et voix",
    "group-attack": "Attaques",
    "group-heads": "Têtes de notes",
    "group-lines": "Lignes",
    "group-pitch": "Hauteurs",
    "group-time": "Temps et nuances",
    "group-breath": "Souffle et voix",
    "page-of": "page {page} sur {pages}",
    "seconds": "s",
    "beat": "temps",
    "beats": "temps",
    "quarter": "noire",
    "quarters": "noires",
    "warm-up": "Échauffement",
    "preparation": "Préparation",
    "rest-after": "repos {seconds} s",
    "chart-fingering-slide": "Positions de la coulisse",
    "chart-fingering-single": "Harmoniques et sons bouchés",
    "chart-ladders-slide": "Harmoniques de chaque position",
    "chart-ladders-single": "Harmoniques",
    "map-unpitched": "Sans hauteur, donc dans tout registre : {techniques}.",
    "map-rare": "Seulement avec une sourdine rare pour cet instrument : {techniques}.",
    "map-missing": "Impossible sur cet instrument : {techniques}.",
    "chart-fingering": "Tablature des doigtés",
    "chart-quarter-tones": "Quarts de ton",
    "chart-ladders": "Harmoniques de chaque doigté",
    "chart-map": "Techniques et registres",
    "chart-fingering-legend-valves": (
        "Sous chaque note, le doigté habituel ; en plus petit, d’autres qui donnent la note juste. 0 : aucun "
        "piston."
    ),
    "chart-fingering-legend-slide": (
        "Sous chaque note, la position habituelle de la coulisse ; en plus petit, d’autres qui donnent la note "
        "juste."
    ),
    "chart-fingering-legend-single": (
        "Sous chaque note, le numéro de l’harmonique ; + : la main dans le pavillon le fait descendre jusqu’à la "
        "note ; o : la main ouverte le laisse monter."
    ),
    "chart-quarter-tones-legend-valves": (
        "Sous chaque note, le doigté et ce qui la rend juste ou, entre parenthèses, son écart en cents (+ : trop "
        "haut) ; en plus petit, d’autres qui la donnent juste."
    ),
    "chart-quarter-tones-legend-slide": (
        "Sous chaque note, la position de la coulisse et ce qui la rend juste ou, entre parenthèses, son écart en "
        "cents (+ : trop haut) ; en plus petit, d’autres qui la donnent juste."
    ),
    "chart-quarter-tones-legend-single": (
        "Sous chaque note, le numéro de l’harmonique et ce qui la rend juste ou, entre parenthèses, son écart en "
        "cents (+ : trop haut)."
    ),
    "chart-fingering-tube": "Harmoniques",
    "chart-fingering-legend-tube": "Sous chaque note, le numéro de l’harmonique.",
    "chart-quarter-tones-legend-tube": (
        "Sous chaque note, le numéro de l’harmonique et ce qui la rend juste ou, entre parenthèses, son écart en "
        "cents (+ : trop haut)."
    ),
    "chart-attachments": "Le nom de note avant la position est la fondamentale du tube avec ses barillets.",
    "chart-trigger": "T : barillet de quarte.",
    "chart-triggers": "T : barillet de quarte ; TT : les deux barillets ensemble.",
    "chart-care": "Les notes à tête noire ne s’obtiennent qu’avec précaution.",
    "chart-missing": "Aucun doigté ne donne les notes entre parenthèses.",
    "chart-missing-slide": "Aucune position ne donne les notes entre parenthèses.",
    "chart-sides": "F désigne le côté fa du cor, Bb le côté si bémol (avec le pouce).",
    "chart-in-and-out": "Short : un peu plus rentrée que la position ; long : un peu plus sortie.",
    "chart-corrected": "Le nombre après {means} dit de combien de cents la note monte (+) ou descend (−).",
    "chart-or": "ou",
    "chart-ladders-legend": (
        "Sous chaque note, le numéro de l’harmonique et son écart en cents par rapport au tempérament égal (+ : "
        "plus haut). Les têtes noires s’écartent de plus de {cents} cents ; les notes entre parenthèses sont en "
        "dehors de ce qui se joue d’ordinaire."
    ),
    "correction-lip": "lèvres",
    "correction-slide": "coulisse",
    "correction-hand": "main",
    "try-out": "Feuille d’essai",
    "try-out-how": (
        "Jouer chaque ligne une ou deux fois, après échauffement, et cocher ce qui est vrai "
        "aujourd’hui : bien, ce serait joué ainsi en concert ; sous réserve, il y faut de la "
        "préparation ou de la chance ; non, cela ne va pas. S’arrêter si cela fait mal. On peut sauter "
        "des lignes ; il n’y a ni bonne ni mauvaise réponse."
    ),
    "try-out-player": "Instrumentiste",
    "try-out-date": "Date",
    "answer-fine": "bien",
    "answer-care": "sous réserve",
    "answer-no": "non",
    "cool-down": "Retour au calme",
    "plain-first": "Jouer chaque ligne une fois sans la technique, puis comme écrit.",
    "term": "Trimestre",
    "term-week": "Semaine",
    "term-date": "À partir du",
    "term-new": "Nouveau",
    "term-tempi": "Tempos",
    "term-title": "Semaine {week}",
    "term-new-line": "nouveau",
    "term-from": "de la semaine {week}",
    "term-again": "encore une fois, de la semaine {week}",
    "term-more": "{techniques} : d’autres lignes",
    "term-revision": "Révision",
    "term-no-lesson": "pas de cours",
    "term-minutes": "Travail : {minutes} minutes par semaine, un peu chaque jour.",
    "term-braces": (
        "Avec un appareil dentaire : peu de temps à la fois, peu de pression, et une pause dès que cela fait mal."
    ),
    "term-how": (
        "Une page par semaine. Jouer chaque ligne au tempo le plus lent, le cocher quand elle réussit, "
        "puis passer au suivant."
    ),
    "level": "Niveau {level}",
    "players-a2": "à 2",
    "players-first": "1.",
    "players-second": "2.",
    "times": "{count} fois",
    "choose-one": "en choisir un",
    "choose-any-order": "ordre libre",
    "pace-as-fast-as-possible": "aussi vite que possible",
    "pace-irregular": "irrégulier",
    "until-cue": "jusqu’à « {cue} »",
    "until-cue-within": "jusqu’à « {cue} », {length} au plus",
    "unmeasured": "aussi vite que possible",
    "measured": "mesuré",
    "said-of": "{titles} : {text}",
    "see-note": "{title} : voir la note {number}.",
    "see-notes": "Les numéros au-dessus des notes renvoient aux notes d’exécution.",
    "mute-straight": "sèche",
    "mute-stopping": "bouchée",
    "mute-cup": "bol",
    "mute-harmon": "harmon",
    "mute-plunger": "plunger",
    "mute-bucket": "bucket",
    "mute-practice": "d’étude",
    "mute-glass": "verre",
    "mute-cloth": "étoffe",
    "register-low": "registre grave",
    "register-middle": "registre médium",
    "register-high": "registre aigu",
    "register-top": "registre suraigu",
    "sign-approximate": "Hauteur approximative",
    "sign-highest": "Note la plus aiguë",
    "sign-lowest": "Note la plus grave",
    "sign-slash-head": "Rythme seul",
    "sign-diamond-head": "Tête en losange",
    "sign-stops": "Fin d’une ligne",
    "sign-stemless": "Point sur une ligne",
    "sign-small-start": "Petite tête au début",
    "sign-wavy": "Ligne ondulée",
    "sign-growing": "Ondulations croissantes",
    "sign-fading": "Ondulations décroissantes",
    "sign-straight": "Ligne droite",
    "sign-arrow": "Ligne fléchée",
    "sign-broken": "Ligne en tirets",
    "sign-dotted": "Ligne pointillée",
    "sign-gradual": "Passage progressif",
    "sign-band": "Bande de registre",
    "sign-lines": "Trois lignes",
    "sign-quarter-tones-stein": "Altérations en quarts de ton",
    "sign-quarter-tones-arrows": "Altérations en quarts de ton",
    "sign-eighth-tones": "Altérations en huitièmes de ton",
    "sign-second-note": "Seconde note entre parenthèses",
    "sign-cents": "Cents",
    "sign-seconds": "Temps libre",
    "sign-beats": "Durée en temps",
    "sign-strokes": "Barres sur la hampe",
    "sign-unmeasured": "Répétition non mesurée",
    "sign-graces": "Appoggiatures brèves",
    "sign-graces-after": "Petites notes finales",
    "sign-accelerating": "En accélérant",
    "sign-slowing": "En ralentissant",
    "sign-niente": "À partir de rien, jusqu’à rien",
    "sign-ad-lib": "Ad lib.",
    "sign-syllable": "Syllabe",
    "sign-breathing": "Inspirer et expirer",
    "remark-approximate": (
        "Les notes à tête en croix sont de hauteur approximative. Jouer près de la hauteur indiquée ; la forme du "
        "geste compte plus que chaque hauteur."
    ),
    "remark-exact": "Les notes à tête ordinaire sont de hauteur exacte.",
    "remark-slash-head": "Les notes à tête barrée n’indiquent qu’un rythme ; la hauteur est libre.",
    "remark-diamond-head": "Les têtes en losange indiquent le doigté, et non un son plein.",
    "remark-diamond-head-slide": "Les têtes en losange indiquent la position, et non un son plein.",
    "remark-diamond-head-single": "Les têtes en losange indiquent la hauteur, et non un son plein.",
    "remark-wavy": (
        "Une ligne ondulée est le contour du geste : la suivre en passant par ses points, au moment indiqué. "
        "Seule cette ligne est ondulée."
    ),
    "remark-growing": (
        "Là où les ondulations grandissent, se mouvoir de plus en plus librement autour de la ligne."
    ),
    "remark-fading": "Là où les ondulations diminuent, devenir plus stable jusqu’à ce que la ligne soit lisse.",
    "remark-straight": "Une ligne droite est un glissement régulier d’une note à la suivante.",
    "remark-arrow": "Une ligne fléchée est un glissement régulier qui mène à la note placée à son extrémité.",
    "remark-broken": "Une ligne en tirets est un mouvement seulement suggéré, qui n’est pas joué entièrement.",
    "remark-dotted": "Une ligne pointillée est un mouvement à peine présent : le laisser deviner.",
    "remark-stops": (
        "Une petite tête entre crochets indique la hauteur où s’arrête une ligne. Elle est atteinte à cet instant "
        "et n’est pas attaquée."
    ),
    "remark-stemless": (
        "Une tête sans hampe sur une ligne est un point par lequel passe la ligne, à sa place dans le temps."
    ),
    "remark-small-start": "Une petite tête au début d’une ligne est jouée aussi brièvement que l’on veut.",
    "remark-partials": (
        "Les petites têtes le long d’une ligne sont les harmoniques qu’elle traverse ; elles ne sont pas mesurées."
    ),
    "remark-band": (
        "Une bande grise bordée de lignes fines est le registre dans lequel jouer. Les hauteurs y sont "
        "approximatives, en proportion de leur place dans la bande."
    ),
    "remark-lines": (
        "Sur trois lignes, aucune hauteur n’est donnée : les lignes représentent le grave, le médium et l’aigu du "
        "registre indiqué."
    ),
    "remark-highest": "Un triangle pointé vers le haut est la note la plus aiguë possible, quelle qu’elle soit.",
    "remark-lowest": "Un triangle pointé vers le bas est la note la plus grave possible, quelle qu’elle soit.",
    "remark-quarter-tones-stein": (
        "Les quarts de ton ont leurs propres altérations : un dièse à un seul trait vertical hausse d’un "
        "quart de ton, un dièse à trois traits de trois quarts ; un bémol retourné baisse d’un quart de ton, "
        "un bémol retourné joint à un bémol ordinaire de trois quarts."
    ),
    "remark-quarter-tones-arrows": (
        "Une flèche sur l’altération hausse ou baisse d’un quart de ton, selon sa direction."
    ),
    "remark-eighth-tones": (
        "Une flèche sur une altération hausse ou baisse d’un huitième de ton (25 cents), selon sa direction."
    ),
    "remark-second-note": "Une petite tête entre parenthèses après une note : l’autre note du trille ou du shake.",
    "remark-cents": (
        "Les nombres signés au-dessus d’une note sont des cents, tels que les affiche un accordeur : l’écart avec "
        "la note tempérée la plus proche, nommée lorsqu’elle n’est pas la note écrite. Cent cents font un "
        "demi-ton."
    ),
    "remark-accidentals-note": "Chaque altération ne vaut que pour la note qu’elle précède.",
    "remark-accidentals-bar": "Les altérations valent pour toute la mesure, à leur octave.",
    "remark-accidentals-both": (
        "Là où il y a des barres de mesure, les altérations valent pour toute la mesure, à leur octave ; ailleurs, "
        "chacune ne vaut que pour la note qu’elle précède."
    ),
    "remark-fingerings": (
        "Un doigté figure sous la note lorsque le doigté habituel n’est pas souhaité : d’abord le côté du cor, "
        "puis les palettes."
    ),
    "remark-fingerings-valves": "Un doigté figure sous la note lorsque le doigté habituel n’est pas souhaité.",
    "remark-positions": (
        "Une position de coulisse figure sous la note lorsque la position habituelle n’est pas souhaitée."
    ),
    "remark-seconds": (
        "Les gestes placés sous un crochet avec un nombre de secondes sont en temps libre : l’espacement montre "
        "le temps, de gauche à droite, et rien n’est compté. Un silence parmi eux dure autant que sa place."
    ),
    "remark-beats": (
        "Les gestes placés sous un crochet avec un nombre de temps durent autant ; aucune valeur n’y est notée, et "
        "l’espacement montre le temps, de gauche à droite."
    ),
    "remark-box": (
        "Répéter librement ce qui est encadré, aussi longtemps que l’indique la ligne fléchée, puis "
        "enchaîner aussitôt, où que l’on soit. Entre plusieurs cadres, choisir selon les mots."
    ),
    "remark-strokes": (
        "Répéter la note dans la valeur indiquée par les barres sur la hampe, croches pour une barre, "
        "doubles croches pour deux, triples croches pour trois."
    ),
    "remark-unmeasured": (
        "Avec ces mots, trois barres sur la hampe demandent de répéter la note aussi vite que possible, "
        "sans rythme fixe."
    ),
    "remark-graces": (
        "Jouer les petites notes à hampe barrée le plus vite possible, juste avant la note à laquelle elles mènent."
    ),
    "remark-graces-after": "Les petites notes placées après une note viennent tout à la fin de sa durée.",
    "remark-accelerating": "Une ligature qui s’ouvre d’un trait à plusieurs va en accélérant.",
    "remark-slowing": "Des ligatures qui se referment de plusieurs traits à un seul vont en ralentissant.",
    "remark-niente": "Un cercle à l’extrémité d’un soufflet signifie à partir de rien, ou jusqu’à rien.",
    "remark-ad-lib": (
        "À partir de « ad lib. », le contour n’est qu’une suggestion : en dessiner un autre, à peu près "
        "dans le même registre et la même durée."
    ),
    "remark-syllable": (
        "Une syllabe sous une note ou un silence est à dire ou à souffler à cet endroit, avec les sons de "
        "votre propre langue : elle forme l’air et l’attaque. Sous un silence, la dire hors de "
        "l’instrument."
    ),
    "remark-breathing": (
        "Une flèche vers un petit trait vertical, qui représente les lèvres, signifie inspirer de façon "
        "audible ; une flèche qui s’en éloigne, expirer. Sur une note d’air seul, l’air passe par "
        "l’instrument, sur un silence non."
    ),
    "remark-words": (
        "Un mot au-dessus de la portée vaut jusqu’à ce qu’il soit annulé, et il est répété au début d’un système ; "
        "un mot suivi d’une ligne en tirets vaut jusqu’au crochet qui la termine."
    ),
    "remark-gradual": (
        "Deux mots ou deux signes reliés par une flèche indiquent un passage progressif de l’un à l’autre."
    ),
    "transposition-lower": "{instrument} : la partie sonne {interval} plus bas qu’elle n’est écrite.",
    "transposition-higher": "{instrument} : la partie sonne {interval} plus haut qu’elle n’est écrite.",
    "transposition-none": "{instrument} : la partie sonne comme elle est écrite.",
    "score-sounding": "Cette partition est en ut : toutes les hauteurs sont écrites comme elles sonnent.",
    "score-written": "Cette partition est transposée : chaque ligne est écrite comme dans sa partie.",
    "score": "Partition",
    "clef-horn-bass": (
        "La clef de fa suit l’usage moderne : les notes y sonnent aussi loin au-dessous de l’écriture que dans la "
        "clef de sol."
    ),
    "interval-m2": "une seconde mineure",
    "interval-M2": "une seconde majeure",
    "interval-m3": "une tierce mineure",
    "interval-M3": "une tierce majeure",
    "interval-P4": "une quarte juste",
    "interval-A4": "une quarte augmentée",
    "interval-d5": "une quinte diminuée",
    "interval-P5": "une quinte juste",
    "interval-m6": "une sixte mineure",
    "interval-M6": "une sixte majeure",
    "interval-m7": "une septième mineure",
    "interval-M7": "une septième majeure",
    "interval-P8": "une octave",
    "interval-m9": "une neuvième mineure",
    "interval-M9": "une neuvième majeure",
    "interval-P15": "deux octaves",
    "caution-decide": (
        "C’est à vous et à votre professeur de décider de ce qui vous convient ; une version plus facile est "
        "toujours permise."
    ),
    "caution-tiring": (
        "Certains de ces modes de jeu fatiguent les lèvres. S’échauffer d’abord, travailler brièvement et avec "
        "des pauses, écarter l’embouchure des lèvres pendant les silences et s’arrêter à la moindre douleur ou "
        "perte de sensibilité."
    ),
    "caution-loud": (
        "Certains de ces modes de jeu sont très sonores. Porter des protections auditives, s’éloigner des "
        "pavillons voisins, abréger les répétitions de ces passages et respecter les règles locales "
        "d’exposition au bruit."
    ),
    "caution-flutter": (
        "Le Flatterzunge secoue les lèvres : le travailler brièvement et avec des pauses, puis jouer quelques "
        "longues notes ordinaires."
    ),
    "caution-growl": (
        "Le growl sollicite la gorge : le travailler brièvement et avec des pauses, et s’arrêter en cas de "
        "douleur à la gorge ou d’enrouement."
    ),
    "caution-voice": "Chanter légèrement, et s’arrêter en cas de douleur à la gorge ou d’enrouement.",
    "caution-lip": (
        "Ce geste sollicite les lèvres : le préparer dans la nuance piano, le travailler brièvement et avec des "
        "pauses, et ne pas appuyer davantage l’embouchure pour le forcer."
    ),
    "caution-pop": (
        "Frapper légèrement : un coup trop fort coince l’embouchure dans l’instrument. Tenir l’instrument à "
        "distance des dents."
    ),
    "draft": "BROUILLON",
    "draft-notice": (
        "Brouillon, ne pas exécuter : ce qui suit est injouable tel quel, ou jouable seulement avec précaution."
    ),
    "verdict-playable": "jouable",
    "verdict-with-care": "avec précaution",
    "verdict-not-as-written": "injouable tel quel",
    "draft-more": "et {count} autres : la vérification les donne toutes",
    "refused-gesture": "« {title} » ne figure pas ici, car il est injouable tel quel.",
    "unread-gesture": "« {title} » manque ici : son texte, ou celui de ce qu’il fait jouer, n’a pas pu être lu.",
    # A gesture in words, for those who cannot see the page.
    "decimal": ",",
    "say-gesture": "{title} : {techniques}, {length}.",
    "say-passage": "{title} : passage, {meter}, {length} : {items}.",
    "say-free-meter": "sans mesure",
    "say-beat": "{number} temps",
    "say-beats": "{number} temps",
    "say-seconds": "{number} secondes",
    "say-point": "{point} à {time}",
    "say-about": "environ {pitch}",
    "say-percent": "{number} % du registre",
    "say-highest": "note la plus aiguë possible",
    "say-lowest": "note la plus grave possible",
    "say-silence": "silence",
    "say-as": "en {technique}",
    "say-without": "sans {technique}",
    "say-straight": "glissé en ligne droite vers {point}",
    "say-wavy": "par une ligne ondulée vers {point}",
    "say-broken": "par une ligne en tirets vers {point}",
    "say-dotted": "par une ligne pointillée vers {point}",
    "say-arrow": "par une flèche vers {point}",
    "say-slur": "lié à {point}",
    "say-none": "puis {point}",
    "say-growing": "en croissant",
    "say-fading": "en décroissant",
    "say-accent": "accent",
    "say-staccato": "staccato",
    "say-tenuto": "tenuto",
    "say-marcato": "marcato",
    "say-fermata": "point d’orgue",
    "say-breath": "respiration",
    "say-box": "dans un cadre, {items}, répété pendant {length}",
    "say-box-cue": "dans un cadre, {items}, répété jusqu’à « {cue} »",
    "say-eighths": "{point}, répété en croches",
    "say-sixteenths": "{point}, répété en doubles croches",
    "say-thirty-seconds": "{point}, répété en triples croches",
    "say-unmeasured": "{point}, répété aussi vite que possible",
    "say-graces-before": "{point}, précédé des petites notes {notes}",
    "say-graces-after": "{point}, suivi des petites notes {notes}",
    "say-inhale": "en inspirant",
    "say-exhale": "en expirant",
    "say-open": "ouvert",
    "say-trill": "trillé avec {pitch}",
    "say-words": "avec les mots « {text} »",
    "say-syllable": "sur la syllabe « {text} »",
    "say-attacks": "{count} attaques.",
    "say-attacks-accelerating": "{count} attaques, de plus en plus rapides.",
    "say-attacks-slowing": "{count} attaques, de plus en plus lentes.",
    "say-speed": "Vitesse {course}.",
    "say-width": "Ampleur {course}.",
    "wave-slow": "lente",
    "wave-medium": "moyenne",
    "wave-fast": "rapide",
    "wave-narrow": "étroite",
    "wave-wide": "large",
    "wave-per-second": "{number} par seconde",
    "wave-course-to": "jusqu’à {next}",
    "wave-course-then": "puis {next}",
    "say-dynamics": "Nuances {levels}.",
    "say-swell": "en croissant jusqu’à {level}",
    "say-fade": "en décroissant jusqu’à {level}",
    "say-then": "puis {level}",
    "say-niente": "niente",
    "say-rest": "silence de {length}",
    "say-note": "{pitch} pendant {length}",
    "say-rest-held": "silence de {length}, point d’orgue",
    "say-pickup": "levée de {length}",
    "say-key": "tonalité de {name}",
    "say-no-key": "sans armure",
    "say-major": "{tonic} majeur",
    "say-minor": "{tonic} mineur",
    "say-tempo": "tempo {number}",
    "say-tempo-words": "« {words} », tempo {number}",
    "say-accelerando": "à partir d’ici de plus en plus vite jusqu’au tempo {number} en {length}",
    "say-ritardando": "à partir d’ici de plus en plus lent jusqu’au tempo {number} en {length}",
    "say-meter": "mesure à {meter}",
    "say-mark": "repère {mark}",
    "say-double-bar": "double barre",
}
