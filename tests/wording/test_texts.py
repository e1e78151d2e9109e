"""The texts for players: all exist in every language, and are clean sentences."""

from __future__ import annotations

import re
import string
from dataclasses import replace
from pathlib import Path

import pytest

from gesturesmith import instruments, techniques, wording
from gesturesmith.diagnostics import Verdict
from gesturesmith.techniques.base import Technique

LANGUAGES = ("en", "de", "fr", "it")
TECHNIQUES = [techniques.get(name) for name in techniques.names()]
# The quotation marks of each language, and those it must not use.
QUOTES = {"en": "“”", "de": "„“", "fr": "«»", "it": "«»"}
SENTENCES = re.compile(r"(remark|caution|transposition)-|score-|clef-|refused-|draft-notice")


def of_pages() -> list[tuple[str, str]]:
    return [(language, key) for language in LANGUAGES for key in wording.keys(language)]


def of_techniques() -> list[tuple[str, str]]:
    return [(language, technique.key) for language in LANGUAGES for technique in TECHNIQUES]


def fields(text: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(text) if name is not None}


def faults(text: str, language: str) -> list[str]:
    """The faults a copy editor would mark in a text."""
    marked = []
    if text != text.strip() or "  " in text or "\n" in text:
        marked.append("spaces")
    if re.search("[\"'´`]", text):
        marked.append("straight quotes")
    if set(text) & set("“”„«»") - set(QUOTES[language]):
        marked.append("quotes of another language")
    if language == "fr" and re.search("(?<!\u00a0)[;:?!»]|«(?!\u00a0)", text):
        marked.append("no-break space of French")
    if language != "fr" and re.search("[ \u00a0][,;:.?!]", text):
        marked.append("space before a sign")
    if re.search(r"\.\.|,,|--", text):
        marked.append("doubled sign")
    return marked


def is_sentence(text: str) -> bool:
    start = text.lstrip("“„«\u00a0")
    return (start[0].isupper() or start.startswith("{")) and text.endswith((".", ".»", ".”", ".“"))


def test_the_languages_are_the_shipped_ones() -> None:
    assert wording.languages() == LANGUAGES


def test_every_language_holds_the_same_keys() -> None:
    english = set(wording.keys("en"))
    assert len(english) > 90
    for language in LANGUAGES:
        assert set(wording.keys(language)) == english, language


@pytest.mark.parametrize(("language", "key"), of_pages())
def test_a_text_of_pages_is_clean(language: str, key: str) -> None:
    text = wording.text(key, language)
    assert text
    assert faults(text, language) == []
    assert fields(text) == fields(wording.text(key, "en"))
    if SENTENCES.match(key):
        assert is_sentence(text), text


@pytest.mark.parametrize(("language", "key"), of_techniques())
def test_a_technique_speaks_every_language(language: str, key: str) -> None:
    technique = techniques.get(key)
    title = technique.title[language]
    assert faults(title, language) == []
    assert title[0].isupper()
    assert not title.endswith(".")
    for text in (technique.texts[language], *(texts[language] for texts in technique.texts_where.values())):
        assert faults(text, language) == []
        assert is_sentence(text), text
        assert len(text) < 230, "a footnote, not an essay"
        assert fields(text) == set(), "a technique's text stands as it is"


def test_no_technique_brings_a_language_that_is_not_shipped() -> None:
    for technique in TECHNIQUES:
        assert set(technique.title) == set(technique.texts) == set(LANGUAGES), technique.key
        for texts in technique.texts_where.values():
            assert set(texts) == set(LANGUAGES), technique.key


@pytest.mark.parametrize("language", LANGUAGES)
def test_titles_and_texts_are_told_apart(language: str) -> None:
    for read in (wording.technique_title, wording.technique_text):
        texts = [read(technique, language) for technique in TECHNIQUES]
        assert len(set(texts)) == len(texts)


def test_languages_differ() -> None:
    """A text left in English by mistake is found: only trade words may be equal."""
    for language in LANGUAGES[1:]:
        same = [t.key for t in TECHNIQUES if t.texts[language] == t.texts["en"]]
        assert same == []
        sentences = [k for k in wording.keys("en") if SENTENCES.match(k)]
        assert [k for k in sentences if wording.text(k, language) == wording.text(k, "en")] == []


def test_every_caution_and_mute_has_its_text() -> None:
    for technique in TECHNIQUES:
        if technique.caution:
            assert wording.text(technique.caution, "en")
    for key in ("caution-tiring", "caution-loud", "caution-decide"):
        assert wording.text(key, "en")
    for mute in ("straight", "stopping", "cup", "harmon", "plunger", "bucket", "practice"):
        assert wording.text(f"mute-{mute}", "en")


def test_every_sign_and_group_of_a_notes_page_has_its_texts() -> None:
    from gesturesmith.sheets._entries import SIGN_GROUPS
    from gesturesmith.sheets._signs import SIGNS
    from gesturesmith.techniques.base import GROUP_OF_LAYER, LAYERS

    groups = {*SIGN_GROUPS, *(GROUP_OF_LAYER.get(layer, layer) for layer in LAYERS[1:])}
    for language in LANGUAGES:
        for group in groups:
            assert wording.text(f"group-{group}", language)
        for sign in SIGNS:
            assert sign.group in SIGN_GROUPS
            assert wording.text(f"sign-{sign.key}", language)
            assert wording.text(f"remark-{sign.key}", language)


def test_quoted_words_are_those_on_the_page() -> None:
    """A text that says what ends an effect quotes the printed word, in every language."""
    for technique in TECHNIQUES:
        shown = technique.look.cancel
        if shown and shown.casefold() in technique.texts["en"].casefold():
            for language in LANGUAGES:
                assert shown.casefold() in technique.texts[language].casefold(), (technique.key, language)


@pytest.mark.parametrize(
    ("key", "language"), [("no-such-key", "en"), ("draft", "nl"), ("draft", ""), ("draft", "base")]
)
def test_what_is_unknown_is_a_key_error(key: str, language: str) -> None:
    with pytest.raises(KeyError):
        wording.text(key, language)


def test_a_technique_without_a_text_falls_back_on_the_language() -> None:
    """A technique's own text takes precedence over the language's file."""
    bare: Technique = replace(techniques.get("bend"), title={}, texts={})
    with pytest.raises(KeyError, match="technique-bend"):
        wording.technique_text(bare, "de")
    with pytest.raises(KeyError, match="title-bend"):
        wording.technique_title(bare, "de")
    assert wording.technique_text(techniques.get("bend"), "de") == techniques.get("bend").texts["de"]


@pytest.mark.parametrize(
    ("text", "language", "fault"),
    [
        ("Two  spaces.", "en", "spaces"),
        ("It's straight.", "en", "straight quotes"),
        ("«No.»", "en", "quotes of another language"),
        ("Sans espace; rien.", "fr", "no-break space of French"),
        ("A space ; here.", "en", "space before a sign"),
    ],
)
def test_a_fault_would_be_found(text: str, language: str, fault: str) -> None:
    assert fault in faults(text, language)


def test_a_broken_sentence_would_be_found() -> None:
    assert not is_sentence("no capital.")
    assert not is_sentence("No full stop")
    assert is_sentence("“Quoted” is fine.")


def test_what_two_languages_share_stands_once() -> None:
    assert wording.together(("Passages", "Passages")) == "Passages"
    assert wording.said("heading-passages", ("de", "en")) == "Passagen / Passages"


def test_no_text_is_kept_for_nothing() -> None:
    """Every key is used in the code, in full or as a prefix with the rest filled in."""
    package = Path(wording.__file__).parents[1]
    code = "".join(p.read_text("utf-8") for p in sorted(package.rglob("*.py")) if p.parent.name != "wording")
    quoted = set(re.findall(r"[\"']([\w-]+)(?=[\"'])", code))
    families = tuple(re.findall(r"f[\"']([a-z-]+-)\{", code))
    tables = {t.caution for t in TECHNIQUES} | {f"title-{t.key}" for t in TECHNIQUES}
    means = {instruments.get(name).means for name in instruments.names()} | {"both"}
    for key in wording.keys("en"):
        whole, _, place = key.rpartition("-")
        known = {key, whole} if place in means else {key}
        named = any(k in quoted for k in known)
        assert named or key.startswith(families) or key in tables, key


# Words that only apply to instruments with these parts. The palm that strikes a mouthpiece and the verb "to slide"
# are not parts of an instrument.
OF_VALVES = re.compile(
    r"\bvalves?\b|\bfinger|Ventil|[Gg]riff\b|[Gg]riffs\b|[Gg]reifen|gegriffen|Gegriffen|piston|doigt", re.IGNORECASE
)
OF_A_SLIDE = re.compile(r"\bthe slide\b|slide position|\bZug|\bLagen?\b|[Cc]oulisse(?! de piston)")
OF_A_HAND = re.compile(r"(?<!palm of )the hand\b|\bHand\b(?= im | aus | in den )|la main\b|la mano\b")


@pytest.mark.parametrize("name", instruments.names())
def test_no_text_speaks_of_what_the_instrument_has_not(name: str) -> None:
    """All texts, titles and printed words of an instrument's possible techniques, in every language."""
    instrument = instruments.get(name)
    has = {
        "valves": any(side.valves for side in instrument.sides),
        "slide": instrument.kind == "slide",
        "hand": instrument.has_hand,
    }
    absent = [
        words
        for word, words in (("valves", OF_VALVES), ("slide", OF_A_SLIDE), ("hand", OF_A_HAND))
        if not has[word]
    ]
    assert absent, "no instrument has all three"
    for technique in TECHNIQUES:
        if not instrument.gives(technique.needs):
            continue
        printed = (technique.look.word, technique.look.sign, technique.look.cancel)
        for language in LANGUAGES:
            texts = [wording.technique_title(technique, language), *printed]
            texts += [
                wording.technique_text(technique, language, *where, instrument.means) for where in ((), ("up",))
            ]
            texts += [wording.text(technique.caution, language)] if technique.caution else []
            for words in absent:
                if words is OF_VALVES and technique.needs == "trigger":
                    continue  # a trigger is a valve, in German by its name as well
                for text in texts:
                    assert not words.search(text), (name, technique.key, language, text)
    for language in LANGUAGES:
        for key in ("remark-diamond-head", "group-valves"):
            text = wording.text(key, language, instrument.means)
            assert not any(words.search(text) for words in absent), (name, text)


def test_the_words_of_an_instrument_are_found() -> None:
    """The sweep above would see each of the texts it is there for."""
    harmonic = techniques.get("harmonic-gliss")
    for language in LANGUAGES:
        assert OF_VALVES.search(harmonic.texts[language])
        assert OF_A_SLIDE.search(harmonic.texts_where["slide"][language])
        assert OF_A_HAND.search(techniques.get("hand-out").texts[language])


def test_a_bend_that_goes_up_is_not_told_to_go_down() -> None:
    bend = techniques.get("bend")
    down = {"en": "down", "de": "nach unten", "fr": "Abaisser", "it": "Abbassare"}
    for language, word in down.items():
        assert word in wording.technique_text(bend, language, "valves")
        assert word in wording.technique_text(bend, language, "slide")
        assert word not in wording.technique_text(bend, language, "up", "slide")


def test_a_verdict_has_the_same_words_on_pages_as_in_a_report():
    for verdict in Verdict:
        assert wording.text(f"verdict-{verdict.value}", "en") == verdict.words
