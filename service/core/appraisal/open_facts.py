"""Which one missing fact would turn the answer round? Price, energy or place; the rest is spread, not ignorance."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from service.core.model.assumption import Assumptions
from service.core.model.facts import Money, Setup
from service.core.model.place import Plane
from service.core.model.pointer import replaced_at
from service.core.worth import Worth

YearKwh = Callable[[Setup], float]

_PRICE = "/tariff/periods/0/import_price_per_kwh"
_OPEN_AZIMUTH = frozenset({"middle_of_faces", "one_front", "best_if_free"})
_OPEN_FACADE = frozenset({"middle_of_faces", "one_front"})
# A plane turned away gives at least this share, one turned to the sun at most that, of the one assumed: outside of
# these the energy is not asked again.
_PLANE_REACH = (0.3, 2.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenFact:
    """A fact that nobody gave: its pointer, and the shares of the assumed saving at its two ends."""

    code: str
    pointer: str
    low_share: float
    high_share: float


def needed_share(worth: Worth, money: Money) -> float | None:
    """By what share of the middle savings would the outlay be paid back, discounted, within the years kept?

    What a sale brings at their end is not to be saved. At most 1 where the middle case is paid back, more where it is
    not; None where no price or no saving is there.
    """
    if worth.outlay is None or not worth.yearly_flows:
        return None
    paid, saved, best = worth.outlay, 0.0, None
    for flow in worth.yearly_flows[1:]:
        factor = (1 + money.discount_rate_share) ** -flow.year
        paid, saved = paid + flow.cost * factor, saved + flow.saving * factor
        left = paid - flow.resale * factor
        if saved > 0 and (best is None or left / saved < best):
            best = left / saved
    return best


def turning(setup: Setup, assumptions: Assumptions, worth: Worth, year_kwh: YearKwh | None) -> tuple[OpenFact, ...]:
    """The missing facts each of which alone, at one end of its range, turns paid back into not, or the reverse.

    The price per kWh where it comes from the table; the direction (and with an open mount the tilt), or that of the
    facade before which a panel is turned, where nobody gave it. Savings are taken to move with price and energy; less
    energy is used at home to a larger share, so that the truth moves a little less. ``year_kwh`` is asked only where
    the plane is open and could matter; None: never.
    """
    needed = needed_share(worth, setup.money)
    if needed is None:
        return ()
    facts = [*_price(assumptions)]
    low, high = _PLANE_REACH
    if year_kwh is not None and low < needed < high:
        facts += _planes(setup, assumptions, year_kwh)
    return tuple(f for f in facts if len({needed <= share for share in (1.0, f.low_share, f.high_share)}) > 1)


def _price(assumptions: Assumptions) -> list[OpenFact]:
    price = assumptions.by_pointer.get(_PRICE)
    if price is None or not isinstance(price.value, int | float) or price.value <= 0:
        return []
    low, high = price.low or price.value, price.high or price.value
    return [OpenFact(code="tell_price", pointer=_PRICE, low_share=low / price.value, high_share=high / price.value)]


def _planes(setup: Setup, assumptions: Assumptions, year_kwh: YearKwh) -> list[OpenFact]:
    """All arrays and facades whose direction is open turned together: to both sides and to the midday sun."""
    arrays = range(len(setup.arrays))
    open_at = [i for i in arrays if _open_as(assumptions, _plane(i, "azimuth_deg"), _OPEN_AZIMUTH)]
    facades = [i for i in arrays if _open_as(assumptions, _facade(i), _OPEN_FACADE)]
    if not open_at and not facades:
        return []
    base = year_kwh(setup)
    if not base > 0:
        return []
    mount_open = any(assumptions.assumed(f"/arrays/{i}/mount") for i in open_at)
    midday = 180.0 if setup.site.latitude_deg >= 0 else 0.0
    shares = [
        year_kwh(_turned(setup, assumptions, open_at, facades, azimuth)) / base for azimuth in (90.0, 270.0, midday)
    ]
    if mount_open:
        code, pointer = "tell_mount", f"/arrays/{open_at[0]}/mount"
    elif open_at:
        code, pointer = "tell_direction", _plane(open_at[0], "azimuth_deg")
    else:
        code, pointer = "tell_facade", _facade(facades[0])
    return [OpenFact(code=code, pointer=pointer, low_share=min(shares), high_share=max(1.0, *shares))]


def _plane(index: int, name: str) -> str:
    return f"/arrays/{index}/plane/{name}"


def _facade(index: int) -> str:
    return f"/arrays/{index}/facade_azimuth_deg"


def _open_as(assumptions: Assumptions, pointer: str, codes: frozenset[str]) -> bool:
    found = assumptions.by_pointer.get(pointer)
    return found is not None and found.code in codes


def _turned(setup: Setup, assumptions: Assumptions, planes: list[int], facades: list[int], azimuth_deg: float) -> Setup:
    """The panels turned with what stands square to them, and the facades with panels that nobody told to stay."""
    for i in planes:
        tilt = setup.arrays[i].plane.tilt_deg
        if assumptions.assumed(f"/arrays/{i}/mount") and assumptions.assumed(_plane(i, "tilt_deg")):
            tilt = 90.0  # nobody said how it stands: at worst upright
        plane = Plane(tilt_deg=tilt, azimuth_deg=azimuth_deg)
        setup = replaced_at(setup, f"/arrays/{i}/plane", plane)
    for i in facades:
        setup = replaced_at(setup, _facade(i), azimuth_deg)
        if assumptions.assumed(_plane(i, "azimuth_deg")):
            plane = replace(setup.arrays[i].plane, azimuth_deg=azimuth_deg)
            setup = replaced_at(setup, f"/arrays/{i}/plane", plane)
    return setup
