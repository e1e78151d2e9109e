"""The definition of a rule, and the data it may look at."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from gesturesmith.diagnostics import Finding, Severity
from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import Layer, SeverityWord
from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.model.piece import Passage
from gesturesmith.model.realisation import Realisation
from gesturesmith.techniques.base import Technique
from gesturesmith.values import frozen

__all__ = ["Case", "Finding", "Outcome", "PassageCase", "Rule", "outcome_rule", "passage_rule", "rule"]


@frozen(kw_only=True)
class Case:
    """A gesture with the way it would be played; rules see nothing else."""

    gesture: Gesture
    realisation: Realisation

    @property
    def instrument(self) -> Instrument:
        return self.gesture.instrument

    @property
    def techniques(self) -> tuple[Technique, ...]:
        """The techniques as played, including a fallback in use."""
        return self.realisation.techniques

    def in_force(self, point: ContourPoint | None) -> tuple[Technique, ...]:
        """The techniques at a point; a fallback has already replaced the technique asked for."""
        return point.techniques if point is not None else ()

    def on_layer(self, layer: Layer) -> Technique | None:
        """The technique played on a layer, or None."""
        return next((t for t in self.techniques if t.layer == layer), None)


@frozen(kw_only=True)
class PassageCase:
    """A passage with the case of each gesture it plays, in the order of its items (None for rests).

    refusals   the first refusal of each item's gesture, None if there is none
    cautions   the first caution of each gesture played as written, if it has nothing worse; transposed gestures
               have findings of their own among those of the passage
    """

    passage: Passage
    cases: tuple[Case | None, ...]
    refusals: tuple[Finding | None, ...] = ()
    cautions: tuple[Finding | None, ...] = ()


@frozen(kw_only=True)
class Outcome:
    """The findings of the other rules on a gesture, for the few rules that judge them.

    case            the gesture as finally played, with the fallback if it is used
    found           its findings, before any `allow`
    asked           the gesture as written; equals `case` if no fallback is used
    silent          indices in `gesture.allows` of the entries that matched no finding
    barred          indices of those that matched only findings that cannot be allowed
    replaced        refusals of the technique asked for that the fallback avoids
    """

    case: Case
    found: tuple[Finding, ...]
    asked: Case
    silent: tuple[int, ...] = ()
    barred: tuple[int, ...] = ()
    replaced: tuple[Finding, ...] = ()


@frozen
class Rule:
    """A rule: code, name, the default severity of its findings, and its check.

    At least one of `check`, `check_passage` and `check_outcome` is set; `doc` is the module's docstring. `only`
    holds traits (`rules.shared.traits`), one of which a gesture must have for `check` to apply; () for all
    gestures. `graces`: whether it also judges grace notes, as notes with all the time available to them;
    rules of how fast notes follow each other do not, since graces have a rule of their own. `alone`: `check` is for
    a gesture by itself, and `check_passage` says the same once of a passage that plays it in another way.
    """

    code: str
    name: str
    severity: Severity
    check: Callable[[Case], Iterable[Finding]] | None
    check_passage: Callable[[PassageCase], Iterable[Finding]] | None = None
    check_outcome: Callable[[Outcome], Iterable[Finding]] | None = None
    doc: str = ""
    only: frozenset[str] = frozenset()
    graces: bool = True
    alone: bool = False


type GestureCheck = Callable[[Case], Iterable[Finding]]
type PassageCheck = Callable[[PassageCase], Iterable[Finding]]
type OutcomeCheck = Callable[[Outcome], Iterable[Finding]]


def rule(
    code: str,
    name: str,
    *,
    severity: SeverityWord,
    passage: PassageCheck | None = None,
    outcome: OutcomeCheck | None = None,
    only: Iterable[str] = (),
    graces: bool = True,
    alone: bool = False,
) -> Callable[[GestureCheck], Rule]:
    """Turn a function that yields findings on a gesture into a rule; `passage` checks passages, `outcome` the other
    rules' findings."""

    def make(check: GestureCheck) -> Rule:
        traits = frozenset(only)
        return Rule(
            code, name, Severity(severity), check, passage, outcome, only=traits, graces=graces, alone=alone
        )

    return make


def passage_rule(code: str, name: str, *, severity: SeverityWord) -> Callable[[PassageCheck], Rule]:
    """Turn a function that yields findings on a passage into a rule."""

    def make(check: PassageCheck) -> Rule:
        return Rule(code, name, Severity(severity), None, check)

    return make


def outcome_rule(code: str, name: str, *, severity: SeverityWord) -> Callable[[OutcomeCheck], Rule]:
    """Turn a function that yields findings on other rules' findings into a rule."""

    def make(check: OutcomeCheck) -> Rule:
        return Rule(code, name, Severity(severity), None, None, check)

    return make
