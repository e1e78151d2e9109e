"""The tuba in C, four valves: sounding as written."""

from gesturesmith.instruments._tuba import tuba

CALLED = (
    "bass tuba",
    "Basstuba",
    "Baßtuba",
    "contrabass tuba",
    "Kontrabasstuba",
    "tuba contrebasse",
    "basso tuba",
    "tuba contrabbassa",
    "C tuba",
    "CC tuba",
    "tuba in C",
)
INSTRUMENT = tuba(
    key="tuba",
    name="four-valve tuba in C",
    names={
        "de": "Kontrabasstuba in C mit vier Ventilen",
        "fr": "Tuba contrebasse en ut à quatre pistons",
        "it": "Tuba contrabbassa in do a quattro cilindri",
    },
    part_name="Tuba",
    part_names={"de": "Tuba", "fr": "Tuba", "it": "Tuba"},
    lowest="C1",
    highest="C5",
    open_note="C2",
)
