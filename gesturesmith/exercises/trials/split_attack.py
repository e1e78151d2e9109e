"""How fast: split attack strokes a second."""

from __future__ import annotations

from gesturesmith.exercises.trials._strokes import strokes
from gesturesmith.exercises.trials.base import Family

FAMILY = Family(
    limit="split_attack_per_s",
    rule="attacks-too-fast",
    technique="split-attack",
    ask={
        "en": "Even strokes at the tempo above the line.",
        "de": "Gleichmäßige Anstöße im Tempo über der Zeile.",
        "fr": "Attaques régulières, au tempo indiqué.",
        "it": "Colpi regolari al tempo indicato.",
    },
    gesture=strokes("split-attack", 2, about=True),
    in_registers=True,
)
