"""The bass tuba in F, four valves: sounding as written."""

from gesturesmith.instruments._tuba import tuba

INSTRUMENT = tuba(
    key="tuba-f",
    name="bass tuba in F, four valves",
    part_name="Tuba in F",
    lowest="C1",
    highest="C5",
    open_note="F2",
)
