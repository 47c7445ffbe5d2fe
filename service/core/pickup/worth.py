"""What share of a sound panel's price is this one worth now, and why?

A figure to haggle by, no valuation: a section that is lost or a current that is low counts by the power that is left,
the rest by shares of our own choice. Whatever can shock or burn is worth nothing. Volts and amperes never show all of
the power, so that the share is the most, and the least stands beside it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import prod
from types import MappingProxyType

from service.core.pickup.electric import ISC, VOC
from service.core.pickup.facts import Quantity, Ratings, Seen
from service.core.pickup.left import Left
from service.core.pickup.unseen import least_left_share, least_share

# Our own choices. 0: not at any price. None: it is another panel, worth what its own label says.
_SHARES: Mapping[str, float | None] = MappingProxyType(
    {
        "glass_cracked": 0.0, "back_cracked": 0.0, "back_chalky": 0.0, "back_burnt": 0.0,
        "leaks_frame_dry": 0.0, "leaks_frame_wetted": 0.0,
        "no_reading": 0.0, "no_voltage_yet_current": 0.0, "no_current": 0.0,
        "bypass_open": 0.5, "bypass_shorted": 0.5,
        "old_connectors": 0.9, "bare_leads": 0.9,
        "wrong_panel.other_cells": None, "wrong_panel.voltage_high": None, "wrong_panel.current_high": None,
    }
)  # fmt: skip
NOT_AT_ANY_PRICE = frozenset(
    {"glass_cracked", "back_cracked", "back_chalky", "back_burnt", "leaks_frame_dry", "leaks_frame_wetted"}
)
_GIVES_NOTHING = frozenset({"no_reading", "no_voltage_yet_current", "no_current"})
MENDED_WITH_EASE = frozenset({"old_connectors", "bare_leads"})
# What is wrong whatever the panel's own label says.
_FAULTY_AS_ANY = (
    frozenset({"bypass_section_lost", "lower_than_the_lot", "bypass_open", "bypass_shorted"}) | MENDED_WITH_EASE
)
# Dirt, shade, a weak panel and cells that are broken in every group hardly show in the volts: a tenth off.
ONLY_VOLTAGE_SHARE = 0.9


@dataclass(frozen=True, slots=True, kw_only=True)
class WorthNow:
    """The share at most, None where nobody can say, the reason's code, and the share at least, None where unknown."""

    share: float | None
    because: str
    least: float | None = None


def worth_now(
    verdict: Seen,
    quantities: Sequence[Quantity],
    current_read: bool,
    left: Left,
    ratings: Ratings,
    contact_share: float = 1.0,
    *,
    flows: bool = True,
) -> WorthNow:
    """The share and its reason.

    Args:
        verdict: of the panel.
        quantities: what was read and seen.
        current_read: was the current?
        left: what is left of the quantities that are suspicious.
        ratings: of the panel, as labelled.
        contact_share: of the rounds with contact. Where some were silent and others not, either the meter failed or a
            joint inside does: the panel counts by the rounds in which it gave anything, so that a third decides.
        flows: did any panel of the visit give a current? Else the meter's fuse may be why this one gives none.
    """
    codes = [one.code for quantity in quantities for one in quantity.causes if quantity.verdict is Seen.SUSPICIOUS]
    if NOT_AT_ANY_PRICE.intersection(codes):
        return WorthNow(share=0.0, because="not_at_any_price", least=0.0)
    if verdict is Seen.CANNOT_TELL:
        return WorthNow(share=None, because="not_known_yet")
    if verdict is Seen.AS_EXPECTED:
        seen = "nothing_against_it" if least_left_share(ratings) == 1.0 else "nothing_seen_against_it"
        share, because = (1.0, seen) if current_read else (ONLY_VOLTAGE_SHARE, "current_not_seen")
        return WorthNow(share=share, because=because, least=round(least_share(share, 1.0, quantities, ratings), 2))
    if _meter_first(quantities, codes, flows=flows):
        return WorthNow(share=None, because="meter_first")
    found = _of_suspicious(quantities, codes, current_read, left, ratings)
    if contact_share == 1.0 or not found.share:
        return found
    return WorthNow(share=round(found.share * contact_share, 2), because="contact_not_sure")


def _meter_first(quantities: Sequence[Quantity], codes: Sequence[str], *, flows: bool) -> bool:
    """Is the meter likelier to be why something is missing?

    So it is beside a sound reading of the same panel, and where amperes alone were read and none flowed on any panel.
    """
    if "no_voltage_yet_current" in codes:
        return True
    volts = {one.verdict for one in quantities if one.what == VOC}
    return "no_current" in codes and not flows and volts <= {Seen.AS_EXPECTED}


def _is_of_more_cells(one: Quantity) -> bool:
    """Are they volts above those of the cells that were only taken, so that nothing taken measures what is left?"""
    above = one.what == VOC and one.high is not None and one.measured is not None and one.measured > one.high
    return above and any(why.code == "rating_not_known" for why in one.causes)


def _of_suspicious(
    quantities: Sequence[Quantity], codes: Sequence[str], current_read: bool, left: Left, ratings: Ratings
) -> WorthNow:
    """By the power that is left; where nothing was read by which to say what is left, nobody knows yet."""
    if any(code.startswith("wrong_panel") for code in codes):
        because = "another_panel" if _FAULTY_AS_ANY.isdisjoint(codes) else "another_panel_with_a_fault"
        return WorthNow(share=None, because=because)
    if _GIVES_NOTHING.intersection(codes):
        return WorthNow(share=0.0, because="gives_nothing", least=0.0)
    powers = list(left.shares.values())
    unread = not any(one.what == VOC for one in quantities)
    open_ = any(one.verdict is Seen.CANNOT_TELL for one in quantities)
    if left.not_known or (not powers and (unread or open_)) or any(_is_of_more_cells(one) for one in quantities):
        return WorthNow(share=None, because="not_known_yet")
    # A shorted diode is why its section is missing in the volts, and so in the power that is left.
    own = {code for code in codes if code in _SHARES and not (code == "bypass_shorted" and VOC in left.shares)}
    shares = [_SHARES[code] for code in sorted(own)]
    # Of what is low the current is seen as soon as it was read, else less of it would be worth more.
    if not (any(one.what == ISC for one in quantities) if powers else current_read):
        shares.append(ONLY_VOLTAGE_SHARE)
    share = prod(value for value in shares if value is not None) * prod(min(max(power, 0.0), 1.0) for power in powers)
    because = "repair_needed"
    if powers:  # a current alone hides a lost section
        because = "power_left_at_most" if left.at_most or unread else "power_left"
    still = any(one.verdict is Seen.CANNOT_TELL for one in quantities if not one.what.endswith("_rounds"))
    least = (
        None if left.at_most or still else round(least_share(share, left.shares.get(VOC, 1.0), quantities, ratings), 2)
    )
    return WorthNow(share=round(share, 2), because=because, least=least)
