"""The single horn in B-flat: the B-flat side of the double horn alone, its part still written in F."""

from __future__ import annotations

from dataclasses import replace

from gesturesmith.evidence import DERIVED, MEMORY, Sourced
from gesturesmith.instruments import horn
from gesturesmith.instruments._build import cents, chart, valve_tubes
from gesturesmith.instruments._charts import pedals, three_valves

_DOUBLE = horn.INSTRUMENT

CALLED = ("Bb horn", "single Bb horn", "horn in Bb", "Horn in B")
INSTRUMENT = replace(
    _DOUBLE,
    key="horn-bb",
    name="single horn in B-flat",
    names={"de": "Einfachhorn in B", "fr": "Cor simple en si bémol", "it": "Corno semplice in si bemolle"},
    sides=(horn.B_FLAT_SIDE,),
    tubes=valve_tubes(
        (horn.B_FLAT_SIDE,),
        _DOUBLE.usual_range.value[1],
        _DOUBLE.widest_range.value[1],
        third_slide=_DOUBLE.third_slide.value,
        shown=horn.SHOWN,
    ),
    # Partial 2 of 1-2-3 is sounding E2.
    usual_range=Sourced(
        (cents("E2"), cents("F5")), DERIVED, "from partial 2 with all valves to the top of the double horn"
    ),
    chart=pedals("F3", "Bb", low="C2") | three_valves("F3", "Bb", high="G4") | chart(horn.B_FLAT_HIGH),
    chart_evidence=Sourced("B-flat side", MEMORY, "B-flat side of the double-horn chart, continued down"),
    hand_chart={},
)
