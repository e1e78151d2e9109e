"""The single horn in F: the F side of the double horn alone."""

from __future__ import annotations

from dataclasses import replace

from gesturesmith.evidence import MEMORY, Sourced
from gesturesmith.instruments import horn
from gesturesmith.instruments._build import valve_tubes
from gesturesmith.instruments._charts import pedals, three_valves

_DOUBLE = horn.INSTRUMENT

CALLED = ("single horn in F", "single F horn")
INSTRUMENT = replace(
    _DOUBLE,
    key="horn-f",
    name="single horn in F",
    names={"de": "Einfachhorn in F", "fr": "Cor simple en fa", "it": "Corno semplice in fa"},
    sides=(horn.F_SIDE,),
    tubes=valve_tubes(
        (horn.F_SIDE,),
        _DOUBLE.usual_range.value[1],
        _DOUBLE.widest_range.value[1],
        third_slide=_DOUBLE.third_slide.value,
        shown=horn.SHOWN,
    ),
    chart=pedals("C3", "F", low="C2") | three_valves("C3", "F"),
    chart_evidence=Sourced("F side", MEMORY, "single F horn chart: partials 2 to 6, 8, 10, 12 and 16"),
)
