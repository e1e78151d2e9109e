"""Rules are found by file; a file that does not define a valid rule stops the program."""

import pytest

from gesturesmith import registry, rules
from gesturesmith.rules.base import rule
from gesturesmith.rules.shared.doc import sections

GOOD = """One line.

Checks  what
Why     because
Fires
    instrument: horn
Passes
    instrument: horn
Fix     this
"""


@pytest.fixture
def package(tmp_path, monkeypatch):
    """An empty package for a test's rules, which the registry uses instead of the real ones."""

    def make(**files):
        for name, text in files.items():
            (tmp_path / f"{name}.py").write_text(text)
        monkeypatch.setattr(rules, "__path__", [str(tmp_path)])
        return rules

    for cached in (registry.names, registry.module, rules.all_rules, rules.get):
        cached.cache_clear()
    yield make
    monkeypatch.undo()
    import sys

    for path in tmp_path.glob("*.py"):
        sys.modules.pop(f"gesturesmith.rules.{path.stem}", None)
        vars(rules).pop(path.stem, None)
    for cached in (registry.names, registry.module, rules.all_rules, rules.get):
        cached.cache_clear()


def file(code, name, doc=GOOD):
    return (
        f'"""{doc}"""\n\nfrom gesturesmith.rules.base import rule\n\n\n'
        f'@rule("{code}", "{name}", severity="caution")\ndef check(case):\n    return ()\n'
    )


def test_names_are_sorted_and_nothing_is_imported(package):
    made = package(second_rule="raise RuntimeError", first_rule="raise RuntimeError")
    assert made.names() == ("first-rule", "second-rule")


def test_rules_come_by_code(package):
    made = package(aa_one=file("GS702", "aa-one"), bb_two=file("GS301", "bb-two"))
    assert [r.code for r in made.all_rules()] == ["GS301", "GS702"]
    assert made.all_rules()[0].doc.startswith("One line.")


@pytest.mark.parametrize(
    ("files", "says"),
    [
        ({"aa_one": file("GS301", "aa-one"), "bb_two": file("GS301", "bb-two")}, "GS301 is the code of both"),
        ({"aa_one": file("GS301", "other-name")}, "calls its rule 'other-name'"),
        ({"aa_one": file("GS101", "aa-one")}, "not a code for a rule"),
        ({"aa_one": file("GS301", "aa-one", GOOD.replace("Why ", "Because "))}, "needs Why once"),
        ({"aa_one": '"""Nothing."""\n'}, "holds 0 rules"),
    ],
)
def test_a_bad_file_stops_the_program(package, files, says):
    with pytest.raises(ValueError, match=says):
        package(**files).all_rules()


def test_a_failed_import_stops_the_program(package):
    with pytest.raises(ZeroDivisionError):
        package(aa_one="1 / 0\n").all_rules()


def test_a_heading_may_not_come_twice():
    with pytest.raises(ValueError, match="needs Fix once"):
        sections(GOOD + "Fix     that\n")


def test_the_real_rules_are_all_there():
    made = rules.all_rules()
    assert len({r.code for r in made}) == len({r.name for r in made}) == len(rules.names()) == len(made)
    for made_rule in made:
        checks = (made_rule.check, made_rule.check_passage, made_rule.check_outcome)
        assert any(c is not None for c in checks)


def test_a_severity_is_one_of_three():
    with pytest.raises(ValueError, match="grave"):
        rule("GS301", "x", severity="grave")(lambda case: ())


def test_explain_by_name_and_by_code():
    by_name, by_code = rules.explain("outside-range"), rules.explain("gs501")
    assert by_name == by_code
    assert by_name is not None
    assert by_name.startswith("outside-range  (GS501, refused")
    assert "Fires\n    instrument: horn" in by_name
    assert rules.explain("no-such-rule") is None
    assert rules.explain("GS999") is None
