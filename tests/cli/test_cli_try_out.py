"""`try-out` and `answers`: from a sheet to a profile that `check` quotes, and their error messages."""

from __future__ import annotations

import pytest

BEND = "pitches: written\ngesture a\n  technique: bend\n  contour: E4 -- D4 -- E4\n  lasts: 4 beats\n"


@pytest.mark.lilypond
def test_from_the_sheet_to_the_players_word(run, here) -> None:
    (here / "piece.gesture").write_text(f"instrument: horn\n{BEND}")
    result = run("try-out", "horn", "piece.gesture", "--questions", "1", "--wording", "de,fr")
    assert result.status == 0, result.err
    assert (here / "out" / "horn-try-out.pdf").read_bytes().startswith(b"%PDF")
    form = here / "out" / "horn-try-out.toml"
    assert f"{form.relative_to(here)}  to type the answers into" in result.out
    assert "# Bending mit den Lippen abwärts, mittleres Register / Inflexion" in form.read_text()

    answered = form.read_text().replace('player = ""', 'player = "Lee"').replace('\n1 = ""', '\n1 = "fine"')
    form.write_text(answered)
    again = run("try-out", "horn", "piece.gesture", "--questions", "1")
    assert again.status == 0
    assert form.read_text() == answered
    assert "already exists and was not changed" in again.err

    made = run("answers", form, "-o", "lee.toml")
    assert (made.status, made.out) == (0, 'wrote lee.toml; name it in a piece: instrument: "lee.toml"\n')
    (here / "piece.gesture").write_text(f'instrument: "lee.toml"\n{BEND}')
    checked = run("check", "piece.gesture")
    assert "(this player)" in checked.out


@pytest.mark.lilypond
def test_a_profile_of_an_instrument_is_tried_out_and_its_player_plays_it(run, here) -> None:
    (here / "old.toml").write_text('instrument_profile = 1\nbased_on = "horn"\nname = "old horn"\n')
    growl = "pitches: written\ngesture a\n  technique: growl\n  contour: E4\n  lasts: 10 s\n"
    (here / "piece.gesture").write_text(f'instrument: "old.toml"\n{growl}')
    result = run("try-out", "old.toml", "piece.gesture", "--questions", "1")
    assert result.status == 0, result.err
    (form,) = (here / "out").glob("*.toml")
    text = form.read_text()
    assert 'instrument = "../old.toml"' in text
    assert '["growl.longest_s", 12]' in text
    form.write_text(text.replace('player = ""', 'player = "Lee"').replace('\n4 = ""', '\n4 = "fine"'))
    made = run("answers", form, "-o", "lee.toml")
    assert made.status == 0, made.err
    assert 'based_on = "old.toml"' in (here / "lee.toml").read_text()
    assert "effect-too-long" in run("check", "piece.gesture").out
    (here / "piece.gesture").write_text(f'instrument: "lee.toml"\n{growl}')
    assert "effect-too-long" not in run("check", "piece.gesture").out


def form(here, name: str, player: str, answer: str) -> None:
    text = f'try_out_answers = 1\ninstrument = "horn"\nplayer = "{player}"\n[answers]\n1 = "{answer}"\n'
    (here / name).write_text(text + '[trials]\n1 = ["breath_litres", 2]\n')


def test_several_answers_are_shown_as_a_profile(run, here) -> None:
    for name, player in (("a.toml", "Kim"), ("b.toml", "Lee")):
        form(here, name, player, "fine")
    shown = run("answers", "a.toml", "b.toml")
    assert shown.status == 0
    assert 'based_on = "horn"' in shown.out
    assert "2 players tried: fine for 2" in shown.out
    assert "player =" not in shown.out


def test_bad_answers_are_told(run, here) -> None:
    form(here, "a.toml", "Kim", "fine")
    form(here, "b.toml", "Kim", "fine")
    form(here, "c.toml", "Lee", "great")
    form(here, "d.toml", "Lee", "no")
    assert "both by Kim" in run("answers", "a.toml", "b.toml").err
    assert "c.toml: line 5: answers.1: not an answer" in run("answers", "a.toml", "c.toml").err
    nothing = run("answers", "d.toml")
    assert (nothing.status, "no limit follows" in nothing.err) == (1, True)
    assert run("answers", "gone.toml").status == 2
    assert run("answers", "a.toml", "-o", "a.toml").status == 2
    assert run("answers", "a.toml", "-o", "no/such/folder.toml").status == 2


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("hron",), "did you mean horn"),
        (("horn", "--questions", "0"), "0 is not in the range"),
        (("horn", "--as", "ily"), "no such format"),
        (("mine.toml",), "mine.toml: no such file"),
    ],
)
def test_a_wrong_word_is_explained(run, arguments, said) -> None:
    result = run("try-out", *arguments)
    assert result.status == 2
    assert said in result.err
