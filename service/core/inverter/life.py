"""How much sooner does heat wear out an inverter, by where it sits? A rule of thumb, as a band, and no promise."""

from collections.abc import Mapping
from types import MappingProxyType

from service.core.model.band import Band

SOURCE = (
    "10 K rule: wear driven by heat (capacitors, insulation) goes twice as fast for every 10 K; a rule of thumb. The "
    "Arrhenius law behind it gives 8 K for an activation energy of 0.8 eV and 13 K for 0.5 eV near 60 C; from memory"
)
# K by which the life halves; least first. Both ends follow from ln 2 k T^2 / E at T = 333 K.
HALVING_K = (8.0, 10.0, 13.0)
# K above outdoor air in the shade, in the bright hours in which an inverter works hardest; ``cautious`` is the
# warmest. Judgement: nothing was measured.
SEAT_WARMER_K: Mapping[str, Band] = MappingProxyType(
    {
        "indoors": Band(5.0, 0.0, 0.0),
        "open_shade": Band(5.0, 0.0, 0.0),
        "behind_panel": Band(20.0, 15.0, 8.0),
        "sunlit": Band(20.0, 15.0, 8.0),
        "closed_box": Band(25.0, 18.0, 10.0),
    }
)


def life_over_shade(seat: str) -> Band:
    """The time until heat has worn an inverter out at this seat, over that in the open shade: 1 or less.

    ``cautious`` is the shortest: the warmest seat with the quickest wear.

    Raises:
        KeyError: the seat is none of the closed list.

    >>> round(life_over_shade("behind_panel").middle, 2)
    0.35
    """
    warmer = SEAT_WARMER_K[seat]
    pairs = zip((warmer.cautious, warmer.middle, warmer.hopeful), HALVING_K, strict=True)
    return Band(*(0.5 ** ((kelvin or 0.0) / halving) for kelvin, halving in pairs))
