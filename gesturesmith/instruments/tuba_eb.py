"""The tuba in E-flat, four valves: sounding as written."""

from gesturesmith.instruments._tuba import tuba

CALLED = ("Eb tuba", "EEb bass", "Eb bass")
INSTRUMENT = tuba(
    key="tuba-eb",
    name="four-valve tuba in E-flat",
    part_name="Tuba in E♭",
    part_names={"de": "Tuba in Es", "fr": "Tuba en mi bémol", "it": "Tuba in mi bemolle"},
    lowest="C1",
    highest="Bb4",
    open_note="Eb2",
)
