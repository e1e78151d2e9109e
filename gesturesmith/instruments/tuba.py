"""The tuba in C, four valves: sounding as written."""

from gesturesmith.instruments._tuba import tuba

INSTRUMENT = tuba(
    key="tuba", name="tuba in C, four valves", part_name="Tuba", lowest="C1", highest="A4", open_note="C2"
)
