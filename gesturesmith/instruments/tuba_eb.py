"""The tuba in E-flat, four valves: sounding as written."""

from gesturesmith.instruments._tuba import tuba

CALLED = ("Eb tuba", "EEb bass", "Eb bass")
INSTRUMENT = tuba(
    key="tuba-eb",
    name="four-valve tuba in E-flat",
    names={
        "de": "Basstuba in Es mit vier Ventilen",
        "fr": "Tuba basse en mi bémol à quatre pistons",
        "it": "Tuba bassa in mi bemolle a quattro cilindri",
    },
    part_name="Tuba in E♭",
    part_names={"de": "Tuba in Es", "fr": "Tuba en mi bémol", "it": "Tuba in mi bemolle"},
    lowest="C1",
    highest="C#5",
    open_note="Eb2",
)
