"""What musicians type instead of the words of the language, in English, German, French and Italian.

Names of techniques and instruments are in their own files.
"""

from gesturesmith.source import as_said

_SAID = {
    # settings and keys
    "instrument": "strumento, instrumentation, besetzung, instruments",
    "pitches": "transposition, transposing, notation, hauteurs, altezze, tonhöhen, stimmung",
    "tempo": "zeitmaß, mouvement, tempi, metronom, métronome, metronomo, bpm",
    "title": "titel, titre, titolo, überschrift, piece, work",
    "subtitle": "untertitel, sous-titre, sottotitolo",
    "composer": "komponist, komponistin, compositeur, compositrice, compositore, author, autor, auteur, autore",
    "part": "stimme, partie, parte, player",
    "wording": "sprache, langue, lingua",
    "words": "labels, wörter, mots, parole",
    "meter": "time signature, takt, taktart, mesure, misura, metrum, métrique, metro, signature",
    "pickup": "auftakt, upbeat, anacrusis, pick-up, levée, anacrouse, levare, anacrusi",
    "key": "tonart, vorzeichen, tonalité, armure, tonalità, armatura, key signature, tonality",
    "bar": "taktzahl, bar number, measure number, numéro de mesure, numero di battuta",
    "paper": "papier, carta, format, papiergröße",
    "technique": "technik, spieltechnik, tecnica, effekt, effet, effetto, articulation, mode de jeu",
    "contour": "kontur, melodie, melody, mélodie, melodia, noten, note, pitches, tonfolge, profil, profilo",
    "band": "lage, registre, registro, ambitus, umfang, étendue, estensione",
    "lasts": "dauer, durée, durata, länge, longueur, lunghezza, how long",
    "dynamics": "dynamik, lautstärke, nuance, nuances, dinamica, dinamiche, intensité",
    "attacks": "anstöße, anstoß, attaques, attaque, attacchi, attacco, repetitions, tonguing",
    "fingering": "griff, griffe, fingersatz, doigté, doigtés, diteggiatura, posizione, position, zug, ventile",
    "mute": "dämpfer, sourdine, sordino, sordina, con sord, con sordino, mutes",
    "sing": "singen, gesang, voice, voix, voce, chant, canto, chanter, cantare, singing",
    "text": "words, worte, texte, testo, expression, direction",
    "footnote": "fußnote, note de bas de page, nota",
    "note": "bemerkung, anmerkung, remarque, osservazione, comment, hint",
    "notehead": "notenkopf, tête de note, testa, head",
    "play": "spielen, spiele, jouer, suonare, sequence, order, ablauf",
    "repeat": "wiederholen, wiederholung, répéter, reprise, ripetere, ripetizione, times, repetitions",
    # heights and registers
    "high": "hoch, oben, aigu, haut, alto, acuto, upper, up, top",
    "low": "tief, unten, grave, bas, basso, lower, bottom",
    "mid": "mittel, mitte, moyen, medio, milieu, central",
    "middle": "mittel, mitte, moyen, medium, medio, milieu, mid, central",
    "top": "höchste, suraigu, sovracuto, altissimo, very high, highest",
    "highest": "höchster, höchste, so hoch wie möglich, le plus haut, aussi haut que possible, più alto possibile",
    "lowest": "tiefster, tiefste, le plus bas, più basso possibile",
    # words at a point
    "accent": "akzent, accento, accented, accentué",
    "staccato": "stacc, piqué, kurz, short, spiccato, gestoßen, secco",
    "tenuto": "ten, gehalten, tenu, portato, breit",
    "marcato": "marc, marqué, martellato, martelé",
    "fermata": "fermate, point d’orgue, hold, corona, pause, held",
    "breath": "atem, atmen, atemzeichen, respiration, respirer, respiro, respirare, breathe",
    # levels and hairpins
    "n": "niente, nothing, aus dem nichts, silence, al niente, dal niente, rien, o",
    "pp": "pianissimo, very soft, sehr leise, très doux, pianiss",
    "ppp": "pianississimo",
    "p": "piano, soft, softly, quiet, quietly, leise, doux, sottovoce, sotto voce, doucement",
    "mp": "mezzopiano, mezzo piano, halbleise",
    "mf": "mezzoforte, mezzo forte, medium, normal, halblaut",
    "f": "forte, loud, laut, strong, fort",
    "ff": "fortissimo, very loud, sehr laut, très fort",
    "fff": "fortississimo, as loud as possible",
    "fp": "fortepiano, forte piano",
    "sfz": "sforzando, sforzato",
    "<": "crescendo, cresc, louder, lauter, getting louder, swell, to, bis, anschwellend",
    ">": "decrescendo, decresc, diminuendo, dim, softer, leiser, getting softer, fade, fading, abschwellend",
    # mutes
    "straight": "dämpfer, sourdine, sordino, sordina, con sord, con sordino, mit dämpfer, avec sourdine, "
    "straight mute, gerade, spitzdämpfer, sourdine sèche, sourdine ordinaire, yes, mute, in",
    "stopping": "stopfdämpfer, stop mute, stopping mute, stopmute, sourdine pour sons bouchés, echo mute",
    "cup": "cup mute, cup-dämpfer, sourdine bol, becher, bol, coppa",
    "harmon": "harmon mute, wah, wah wah, wa wa, wow wow, wawa, bubble, stem, stem in, stem out",
    "plunger": "plunger mute, wah, wah wah, wa wa, wawa, débouche-évier, gummipümpel, sturalavandini, doo wah",
    "bucket": "bucket mute, velvet, velvet mute, velvetone",
    "practice": "practice mute, übungsdämpfer, sourdine d’étude, whisper mute, silent",
    # units
    "beats": "schläge, schlag, temps, tempi, tempo, battute, zeiten, zähler, viertel, quarter, quarters, "
    "quarter notes, quarter note, noires, noire, semiminime, count, counts, pulses, pulsations",
    "s": "sekunden, sekunde, secondes, seconde, secondi, secondo, sek, secs",
    "bars": "takte, takt, measures, measure, mesures, mesure, misure, misura, battuta, bar",
    # how to read pitches
    "written": "notiert, geschrieben, écrit, écrits, scritto, scritti, transposing, transposed, in f, as written",
    "sounding": "klingend, réel, réels, sons réels, reali, suoni reali, concert, concert pitch, in c, en ut, "
    "actual, as heard, real",
    # sides of a fingering
    "T": "thumb, trigger, daumen, pouce, pollice, stellventil, quartventil, barillet",
    "0": "open, offen, vide, vuoto, leer, none, à vide",
    "short": "kurz, raised, sharp, vibr, +",
    "long": "lang, lowered, flat",
    "en": "english, englisch, anglais, inglese",
    "de": "german, deutsch, allemand, tedesco",
    "fr": "french, französisch, français, francese",
    "it": "italian, italienisch, italien, italiano",
}
# The same by word of the language.
SAID = {word: tuple(said.split(", ")) for word, said in _SAID.items()}
# What is typed, in the form given by `as_said`, and the words of the language that may be meant.
TRADE_WORDS: dict[str, tuple[str, ...]] = {}
for _word, _typings in SAID.items():
    for _typed in _typings:
        TRADE_WORDS[as_said(_typed)] = (*TRADE_WORDS.get(as_said(_typed), ()), _word)

# Length of note values in quarters, by name in each language.
NOTE_VALUES = {
    as_said(_typed): _beats
    for _beats, _said in {
        "4": "whole, semibreve, ganze, ganze note, ronde, intero, whole note, w",
        "3": "dotted half, dotted minim",
        "2": "half, minim, halbe, halbe note, blanche, minima, half note, h",
        "3/2": "dotted quarter, dotted crotchet, punktierte viertel, noire pointée",
        "1": "quarter, crotchet, viertel, viertelnote, noire, semiminima, quarter note, q",
        "3/4": "dotted eighth, dotted quaver",
        "1/2": "eighth, quaver, achtel, achtelnote, croche, croma, eighth note, 8th, e",
        "1/4": "sixteenth, semiquaver, sechzehntel, double croche, semicroma, sixteenth note, 16th, s",
    }.items()
    for _typed in _said.split(", ")
}
