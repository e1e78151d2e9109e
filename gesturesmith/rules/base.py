"""What a rule is, and what it may look at."""

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
    """One gesture with the way it would be played; rules read it and nothing else."""

    gesture: Gesture
    realisation: Realisation

    @property
    def instrument(self) -> Instrument:
        return self.gesture.instrument

    @property
    def techniques(self) -> tuple[Technique, ...]:
        """The techniques in effect, the fallback's where it is used."""
        return self.realisation.techniques

    def in_force(self, point: ContourPoint | None) -> tuple[Technique, ...]:
        """The techniques at a point; a fallback stands in the place of what was asked there already."""
        return point.techniques if point is not None else ()

    def on_layer(self, layer: Layer) -> Technique | None:
        """The technique in effect on a layer, or None."""
        return next((t for t in self.techniques if t.layer == layer), None)


@frozen(kw_only=True)
class PassageCase:
    """A passage with the case of each gesture it plays, in the order of its items (None for rests).

    refusals   the first refusal of each item's gesture, None where there is none
    cautions   the first caution of each that is played as it stands in the file, where that is the worst of it;
               what is moved has its own findings among the passage's
    """

    passage: Passage
    cases: tuple[Case | None, ...]
    refusals: tuple[Finding | None, ...] = ()
    cautions: tuple[Finding | None, ...] = ()


@frozen(kw_only=True)
class Outcome:
    """What the other rules found on a gesture, for the few rules that judge that.

    case            the gesture as it is played in the end, with the fallback where that is used
    found           what was found on it, before any `allow`
    asked           the gesture as it was written; `case` where no fallback is used
    silent          the `allow` entries (their places in `gesture.allows`) that met no finding
    barred          those that met only findings that cannot be allowed
    replaced        the refusals of the asked technique that the fallback does away with
    """

    case: Case
    found: tuple[Finding, ...]
    asked: Case
    silent: tuple[int, ...] = ()
    barred: tuple[int, ...] = ()
    replaced: tuple[Finding, ...] = ()


@frozen
class Rule:
    """A rule: code, name, the severity its findings have unless they say otherwise, and its check.

    At least one of `check`, `check_passage` and `check_outcome` is there; `doc` is the module's docstring.
    `only` are traits (`rules.shared.traits`) of which a gesture must have one for `check` to look at anything;
    () where it looks at every gesture.
    """

    code: str
    name: str
    severity: Severity
    check: Callable[[Case], Iterable[Finding]] | None
    check_passage: Callable[[PassageCase], Iterable[Finding]] | None = None
    check_outcome: Callable[[Outcome], Iterable[Finding]] | None = None
    doc: str = ""
    only: frozenset[str] = frozenset()


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
) -> Callable[[GestureCheck], Rule]:
    """Make a function that yields findings on a gesture a rule; `passage` does the same between gestures, `outcome`
    on what comes of it."""

    def make(check: GestureCheck) -> Rule:
        return Rule(code, name, Severity(severity), check, passage, outcome, only=frozenset(only))

    return make


def passage_rule(code: str, name: str, *, severity: SeverityWord) -> Callable[[PassageCheck], Rule]:
    """Make a function that yields findings on a passage a rule."""

    def make(check: PassageCheck) -> Rule:
        return Rule(code, name, Severity(severity), None, check)

    return make


def outcome_rule(code: str, name: str, *, severity: SeverityWord) -> Callable[[OutcomeCheck], Rule]:
    """Make a function that yields findings on what the other rules found a rule."""

    def make(check: OutcomeCheck) -> Rule:
        return Rule(code, name, Severity(severity), None, None, check)

    return make
