"""What do the dark test of the bypass diodes, the panel's back, its glass and its connectors say?"""

from collections.abc import Iterator

from service.core.pickup.facts import Between, PanelReading, Quantity, Ratings, Seen, cause

# Volts that a meter's diode test shows for one bypass diode: Schottky 0.15 to 0.4, plain silicon up to 0.65; from
# memory. All sections lie in a row, so that one open diode leaves no way for the meter's current.
DIODE_V = Between(low=0.1, likely=0.3, high=0.75)
_BACK = {"chalky": "back_chalky", "cracked": "back_cracked", "burnt": "back_burnt"}
_CONNECTORS = {"older_unlocked": "old_connectors", "bare": "bare_leads"}


def diode_quantity(reading: PanelReading, sections: Between) -> Quantity | None:
    """What the diode test in the dark says; None where it was not made."""
    read = reading.bypass_forward_v
    low, high = DIODE_V.low * sections.low, DIODE_V.high * sections.high
    if read is None and not reading.bypass_over_range:
        return None
    code = None
    if read is None or reading.bypass_over_range or read > high:
        code = "bypass_open"
    elif read < low:
        code = "bypass_shorted"
    return Quantity(
        what="bypass_forward_v", verdict=Seen.AS_EXPECTED if code is None else Seen.SUSPICIOUS, measured=read,
        low=low, high=high, unit="V", causes=() if code is None else (cause(code),),
    )  # fmt: skip


def looked_at(reading: PanelReading, ratings: Ratings) -> Iterator[Quantity]:
    """What was seen on the panel, as far as somebody said."""
    if reading.glass_state is not None:
        yield _seen("glass_state", "glass_cracked" if reading.glass_state == "cracked" else None)
    if reading.back_state is not None:
        yield _seen("back_state", _BACK.get(reading.back_state))
    if ratings.connector in _CONNECTORS:
        yield _seen("connector", _CONNECTORS[ratings.connector])


def _seen(what: str, code: str | None) -> Quantity:
    causes = () if code is None else (cause(code),)
    return Quantity(what=what, verdict=Seen.SUSPICIOUS if causes else Seen.AS_EXPECTED, causes=causes)
