"""The tuba in B-flat, four valves: sounding as written."""

from gesturesmith.instruments._tuba import tuba

INSTRUMENT = tuba(
    key="tuba-bb",
    name="tuba in B-flat, four valves",
    part_name="Tuba in Bb",
    lowest="Bb0",
    highest="A4",
    open_note="Bb1",
)
