"""What do the panel's back, its glass and its connectors say?"""

from collections.abc import Iterator

from service.core.pickup.facts import PanelReading, Quantity, Ratings, Seen, cause

_BACK = {"chalky": "back_chalky", "cracked": "back_cracked", "burnt": "back_burnt"}
_CONNECTORS = {"older_unlocked": "old_connectors", "bare": "bare_leads"}


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
