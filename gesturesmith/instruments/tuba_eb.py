"""The tuba in E-flat, four valves: sounding as written."""

from gesturesmith.instruments._tuba import tuba

INSTRUMENT = tuba(
    key="tuba-eb",
    name="tuba in E-flat, four valves",
    part_name="Tuba in Eb",
    lowest="C1",
    highest="Bb4",
    open_note="Eb2",
)
