"""What does the set cost delivered, faults of second-hand panels reckoned in?

The rule for second-hand panels: of those bought a share f proves faulty, and each of these is bought once more at the
same price. So the expected outlay for them rises by the share f. A replacement is faulty as often as the first; it is
not bought a third time, its place stays empty, and the expected energy falls by the share f squared.
"""

from dataclasses import dataclass

import numpy as np

from service.core.model.facts import Fetching, Outlay
from service.core.model.hours import Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlayParts:
    """What is paid at year 0, by kind; ``things`` less rebates, ``second_hand_risk`` for panels bought once more.

    ``rebates``: what was taken off ``things``, >= 0; in there already. ``less`` and ``more``: how far the total may lie
    below and above, >= 0.
    """

    things: float
    freight: float
    fetching: float
    registration: float
    second_hand_risk: float
    rebates: float = 0.0
    less: float = 0.0
    more: float = 0.0

    @property
    def total(self) -> float:
        """All of it."""
        return self.things + self.freight + self.fetching + self.registration + self.second_hand_risk


def outlay_parts(outlay: Outlay) -> OutlayParts:
    """The expected outlay by kind.

    >>> from service.core.model.facts import OutlayItem
    >>> trip = Fetching(km=42, per_km=0.3, trips=1, hours=0, per_hour=0)
    >>> panels = OutlayItem(what="panels", amount=130, second_hand=True)
    >>> parts = outlay_parts(Outlay(items=(panels,), freight=0, fetching=trip, registration=0, faulty_share=0.1))
    >>> parts.fetching, parts.second_hand_risk
    (25.2, 13.0)
    """
    used_panels = sum(item.amount for item in outlay.items if item.second_hand)
    return OutlayParts(
        things=float(sum(item.amount for item in outlay.items)),
        freight=outlay.freight or 0.0,
        fetching=0.0 if outlay.fetching is None else fetching_cost(outlay.fetching),
        registration=outlay.registration or 0.0,
        rebates=-float(sum(min(item.amount, 0.0) for item in outlay.items)),
        second_hand_risk=(outlay.faulty_share or 0.0) * max(used_panels, 0.0),
        less=outlay.freight_less or 0.0,
        more=outlay.freight_more or 0.0,
    )


def outlay_ends(outlay: OutlayParts, values: Floats) -> Floats:
    """Cautious, middle and hopeful outlay, (3,); of an outlay that is known all three are the same.

    What it may be more or less has nothing to do with what is saved, so both steps add by squares in what the account
    is worth: each end carries what that sum exceeds the step of the savings by.

    Args:
        outlay: with how far it may lie below and above.
        values: what the account is worth at the middle outlay: cautious, middle and hopeful, (3,).

    >>> parts = OutlayParts(things=264, freight=80, fetching=0, registration=0, second_hand_risk=0, less=40, more=80)
    >>> outlay_ends(parts, np.array([340.0, 400.0, 430.0])).tolist()
    [384.0, 344.0, 324.0]
    """
    steps = np.array([max(values[1] - values[0], 0.0), max(values[2] - values[1], 0.0)])
    beyond = np.hypot(steps, (outlay.more, outlay.less)) - steps
    return outlay.total + np.array([beyond[0], 0.0, -beyond[1]])


def fetching_cost(fetching: Fetching) -> float:
    """Driving there and back on each trip, and the hours at what they are worth."""
    return 2.0 * fetching.km * fetching.trips * fetching.per_km + (fetching.hours or 0.0) * (fetching.per_hour or 0.0)


def sound_share(faulty_share: float) -> float:
    """The share of the places on which a sound panel ends up, which is the share of the energy that is expected.

    >>> sound_share(0.5)
    0.75
    """
    return 1.0 - faulty_share**2
