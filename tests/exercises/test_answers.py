"""The answers to try-out sheets: reading them, what follows for a player and from several, and bad input."""

from __future__ import annotations

from pathlib import Path

import pytest

import gesturesmith
from gesturesmith import instruments
from gesturesmith.exercises import answers as given
from gesturesmith.exercises.tryout import questions
from gesturesmith.instruments import profile

HORN = instruments.get("horn")
SHEET = [(q.limit, q) for q in questions(HORN) if q.limit in ("bend_down_middle", "hand_change_s", "softest_top")]
FORM = given.form("horn", SHEET)
# 1 to 4: bends of 150, 200, 250, 300 cents; 5 to 8: the hand in 0.22, 0.15, 0.11, 0.08 s; 9 to 12: mp, p, pp, ppp.


def filled(
    folder: Path, name: str = "a.toml", player: str = "second horn", date: str = "", form: str = FORM, **said: str
) -> Path:
    """An answer file, with answers by number: n1="fine"."""
    text = form.replace('player = ""', f'player = "{player}"').replace('date = ""', f'date = "{date}"')
    for number, answer in said.items():
        assert f'\n{number[1:]} = ""' in text
        text = text.replace(f'\n{number[1:]} = ""', f'\n{number[1:]} = "{answer}"')
    path = folder / name
    path.write_text(text)
    return path


def answers(path: Path) -> given.Answers:
    found, errors = given.read(path)
    assert errors == ()
    assert found is not None
    return found


def messages(path: Path) -> list[str]:
    found, errors = given.read(path)
    assert found is None
    return [error.message for error in errors]


def test_the_form_holds_the_sheet(tmp_path: Path) -> None:
    found = answers(filled(tmp_path, n1="fine", n2="care", n5="FINE", n9="no", date="2025-03-14"))
    assert [(t.number, t.limit, t.value, t.answer) for t in found.tried] == [
        (1, "bend_down_middle", 150, "fine"), (2, "bend_down_middle", 200, "care"),
        (5, "hand_change_s", 0.22, "fine"), (9, "softest_top", "mp", "no"),
    ]  # fmt: skip
    assert (found.player, found.date, found.instrument.key) == ("second horn", "2025-03-14", "horn")


def test_one_player_gets_a_profile(tmp_path: Path) -> None:
    """With care beyond what was fine, not as written far beyond what went at all if something harder failed."""
    found = answers(
        filled(tmp_path, n1="fine", n2="care", n3="no", n5="fine", n6="fine", n10="fine", date="2025-03-14")
    )
    result = given.of_player(found)
    source = "tried out on 2025-03-14"
    assert result.limits == {
        "bend_down_middle": (150, 200, source),
        "hand_change_s": (0.15, None, source),
        "softest_top": ("p", None, source),
    }
    (tmp_path / "mine.toml").write_text(given.profile(HORN, result, found.player))
    mine, errors = profile.load(tmp_path / "mine.toml")
    assert not errors
    assert mine is not None
    assert mine.limits["bend_down_middle"].narrow.value == 150
    assert mine.limits["bend_down_middle"].wide.value == 200
    assert mine.limits["bend_down_middle"].narrow.source == "this player, second horn: tried out on 2025-03-14"


def test_what_was_never_fine_sets_nothing(tmp_path: Path) -> None:
    result = given.of_player(answers(filled(tmp_path, n1="care", n5="fine")))
    assert set(result.limits) == {"hand_change_s"}
    assert result.notes == ("bend_down_middle: nothing that was tried was fine, so its place is not known",)


def test_several_players_are_pooled_with_counts(tmp_path: Path) -> None:
    """200 cents: fine for three of five; 250 for one. Who did 250 did 200; who failed at 150 fails at 200."""
    said = [
        {"n1": "fine", "n2": "fine", "n3": "care", "n4": "no"},
        {"n1": "fine", "n2": "fine", "n3": "no"},
        {"n3": "fine", "n4": "no"},
        {"n1": "fine", "n2": "care"},
        {"n1": "no"},
    ]
    found = [answers(filled(tmp_path, f"{n}.toml", f"player {n}", **one)) for n, one in enumerate(said)]
    assert given.disagreements(found) == ()
    result = given.pooled(found)
    assert result.limits == {
        "bend_down_middle": (200, 250, "5 players tried: fine for 3, with care for 1, not for 1")
    }


def test_check_says_whose_word_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    found = [answers(filled(tmp_path, f"{n}.toml", f"player {n}", n1="fine", n2="no")) for n in range(3)]
    (tmp_path / "tried.toml").write_text(given.profile(HORN, given.pooled(found)))
    (tmp_path / "mine.toml").write_text(given.profile(HORN, given.of_player(found[0]), "second horn"))
    monkeypatch.chdir(tmp_path)
    body = "pitches: written\ngesture a\n  technique: bend\n  contour: E4 -- D4 -- E4\n  lasts: 4 beats"
    texts = {}
    for name in ("tried", "mine"):
        (tmp_path / f"{name}.gesture").write_text(f'instrument: "{name}.toml"\n{body}')
        (gesture,) = gesturesmith.check(tmp_path / f"{name}.gesture").gestures
        (texts[name],) = [f.text for f in gesture.findings if f.rule == "bend-too-wide"]
    assert texts["tried"].endswith("(3 players tried)")
    assert texts["mine"].endswith("(this player)")


def test_a_technique_has_limits_of_the_player(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """How long a growl goes: for this player, in findings, in passages and in how hard it is."""
    asked = [(q.limit, q) for q in questions(HORN) if q.limit in ("growl.longest_s", "growl.softest")]
    form = given.form("horn", asked)  # 1 to 4: mf, mp, p, pp, or 6, 8, 10, 12 s; then the other
    first = {"growl.softest": 1, "growl.longest_s": 5} if asked[0][0] == "growl.softest" else {"growl.longest_s": 1}
    first.setdefault("growl.softest", 5)
    said = {f"n{first['growl.longest_s']}": "fine", f"n{first['growl.longest_s'] + 1}": "no"}
    said |= {f"n{first['growl.softest'] + 3}": "fine"}
    found = answers(filled(tmp_path, form=form, **said))
    (tmp_path / "mine.toml").write_text(given.profile(HORN, given.of_player(found), found.player))
    monkeypatch.chdir(tmp_path)
    gesture = "pitches: written\ngesture a\n  technique: growl\n  contour: E4\n  lasts: 7 s\n  dynamics: pp\n"
    box = "box b\n  play: a\n  lasts: 60 s\npassage q\n  play: b\n"
    rules, hard = {}, {}
    for name in ('"mine.toml"', "horn"):
        (tmp_path / "a.gesture").write_text(f"instrument: {name}\n{gesture}{box}")
        report = gesturesmith.check(tmp_path / "a.gesture")
        rules[name] = {f.rule for f in report.gestures[0].findings}
        hard[name] = report.gestures[0].demands
        long = [
            f.text for p in report.passages for f in p.findings if f.rule == "box-too-long" and "growl" in f.text
        ]
        assert f"about {'6' if name != 'horn' else '8'} s" in long[0]
    assert "effect-too-long" in rules['"mine.toml"']
    assert "effect-too-soft" not in rules['"mine.toml"']
    assert "effect-too-long" not in rules["horn"]
    assert "effect-too-soft" in rules["horn"]
    assert hard['"mine.toml"'] != hard["horn"]


def test_wrong_numbers_and_words_are_told_all_at_once(tmp_path: Path) -> None:
    form = FORM.replace('\n12 = ""', '\n12 = ""\n99 = "fine"').replace(
        "try_out_answers = 1", "try_out_answers = 1\nx = 2"
    )
    found = messages(filled(tmp_path, player="", date="yesterday", form=form, n1="perhaps"))
    assert [m.split(": ", 1)[1] for m in found] == [
        "x: unknown key (allowed: try_out_answers, instrument, player, date, answers, trials)",
        "player: who answered is missing (allowed: a name in quotes)",
        "date: not a date (allowed: year, month and day, such as 2025-03-14)",
        "answers.1: not an answer (allowed: fine, care or no in quotes, or nothing)",
        "answers.99: the sheet has no such number (allowed: 1 to 12)",
    ]
    assert all(m.startswith("line ") for m in found)


def test_what_is_harder_cannot_go_better(tmp_path: Path) -> None:
    (found,) = messages(filled(tmp_path, n1="no", n2="fine"))
    assert "2 is fine, but 1, which is easier, is no" in found


def test_trials_are_left_as_they_were_made(tmp_path: Path) -> None:
    for before, after in (
        ('"hand_change_s", 0.15', '"hand_change_s", 15000'),
        ('"hand_change_s", 0.15', '"hand_change_s", nan'),
        ('"hand_change_s", 0.15', '"sing_cents", 4500'),  # a limit with two ends, which no trial has
        ('"softest_top", "mp"', '"softest_top", "loud"'),
        ("bend_down_middle", "sideways"),
        ("\n12 = [", f"\n{'9' * 5000} = ["),
    ):
        assert before in FORM
        found = messages(filled(tmp_path, form=FORM.replace(before, after), n9="fine"))
        assert any("not a trial of this instrument" in m for m in found)


@pytest.mark.parametrize("text", ["", "not toml [", "instrument_profile = 1\n", "a = 1", "\x00"])
def test_another_file_is_no_answers(tmp_path: Path, text: str) -> None:
    path = tmp_path / "other.toml"
    path.write_text(text)
    assert messages(path) == ["answers to a try-out sheet begin with try_out_answers = 1"]


def test_nothing_answered_is_said(tmp_path: Path) -> None:
    (found,) = messages(filled(tmp_path))
    assert "nothing is answered" in found


def test_two_players_of_one_name_and_two_instruments_are_kept_apart(tmp_path: Path) -> None:
    first = answers(filled(tmp_path, "a.toml", "Kim", n1="fine"))
    again = answers(filled(tmp_path, "b.toml", "kim", n1="fine"))
    other = FORM.replace('instrument = "horn"', 'instrument = "horn-f"')
    third = answers(filled(tmp_path, "c.toml", "Lee", form=other, n1="fine"))
    assert [s.replace(f"{tmp_path}/", "") for s in given.disagreements([first, again, third])] == [
        "a.toml and b.toml are both by kim; give two players different names",
        "c.toml is about the single horn in F, a.toml about the double horn in F/B-flat",
    ]
