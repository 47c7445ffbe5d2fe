"""What is the site, the circuit and the account, as far as was said?"""

from collections.abc import Mapping

from service.core.completion.node import Guess, Node, listed
from service.core.errors import ContradictionError
from service.core.model.facts import (
    InverterSwap,
    Money,
    OtherSet,
    SocketCircuit,
)
from service.core.model.place import Site
from service.core.model.place_facts import PlaceFacts

_SECTION_OF_AWG: Mapping[float, float] = {14: 2.08, 12: 3.31, 10: 5.26, 8: 8.37, 6: 13.3}
NO_COUNTRY = "ZZ"  # ISO 3166 leaves ZZ to users; read as "no country known"
_VOLTAGES: Mapping[str, float] = {"US": 120.0, "CA": 120.0, "MX": 127.0, "BR": 127.0, "CO": 120.0, "JP": 100.0,
                                  "TW": 110.0, "VE": 120.0, "EC": 120.0}  # fmt: skip


def site_of(node: Node, place: PlaceFacts) -> Site:
    """The complete site, from the caller and the tables' facts of the place."""
    climate = place.climate
    coldest = round(climate.coldest_air_c, 1)
    return Site(
        latitude_deg=node.get("latitude_deg"),
        longitude_deg=node.get("longitude_deg"),
        elevation_m=node.take("elevation_m", Guess(value=round(climate.elevation_m, 1))),
        time_zone=node.take("time_zone", Guess(value=place.time_zone)),
        rule_area=rule_area_of(node, place.country),
        ground_reflectance_share=node.take("ground_reflectance_share"),
        terrain=node.take("terrain"),
        coldest_air_c=node.take("coldest_air_c", Guess(value=coldest, low=coldest - 5, high=coldest + 5)),
        basic_wind_velocity_m_per_s=node.take("basic_wind_velocity_m_per_s"),
        people_below=node.get("people_below"),
        children=node.get("children"),
    )


def rule_area_of(node: Node, country: str | None) -> str:
    """Whose rules hold at a site: as given, else the country at its coordinates."""
    area: str = node.take("rule_area", Guess(value=country or NO_COUNTRY))
    return area


def circuit_of(node: Node | None, area: str) -> SocketCircuit | None:
    """The circuit as far as described, None where it was not. What decides about it is never guessed."""
    if node is None:
        return None
    _refuse_gauge(node, area)
    sets = [_other_set(n) for n in node.children("other_sets")]
    voltage = _VOLTAGES.get(area.split("-", maxsplit=1)[0], 230.0)
    return SocketCircuit(
        plug=node.take("plug"),
        breaker_a=node.get("breaker_a"),
        # of the area's nominal voltages the lowest is taken, at which a set pushes the most; some countries have two
        voltage_v=node.take("voltage_v", Guess(value=voltage, low=voltage, high=240.0)),
        cable_mm2=node.get("cable_mm2"),
        laying=node.get("laying"),
        ambient_c=node.take("ambient_c"),
        dedicated=node.get("dedicated"),
        residual_current_device=node.take("residual_current_device"),
        lead_length_m=node.take("lead_length_m"),
        lead_mm2=node.take("lead_mm2"),
        feeder_length_m=node.take("feeder_length_m"),
        indoors=node.get("indoors"),
        lead_route=node.get("lead_route"),
        other_sets=listed(node, "other_sets", sets),
        shared_neutral=node.get("shared_neutral"),
    )


def _refuse_gauge(node: Node, area: str) -> None:
    """In North America 14, 12, 10, 8 and 6 are gauges of cables and no sections: 14 AWG has 2.08 mm2."""
    section = node.get("cable_mm2")
    if area.split("-", maxsplit=1)[0] in {"US", "CA"} and section in _SECTION_OF_AWG:
        raise ContradictionError(
            node.at("cable_mm2"), "is a gauge (AWG) there, and no section that is sold", given=section,
            accepted="the section in mm2: 14 AWG is 2.08, 12 AWG 3.31, 10 AWG 5.26, 8 AWG 8.37, 6 AWG 13.3",
            example=_SECTION_OF_AWG[section],
        )  # fmt: skip


def _other_set(node: Node) -> OtherSet:
    power = node.take("ac_power_w")
    panels = node.take("panel_power_w", Guess(value=round(1.1 * power, 1)))
    return OtherSet(ac_power_w=power, panel_power_w=panels, same_circuit=node.take("same_circuit"))


def account_ends(household: Node, money: Money) -> None:
    """Write down where the account ends before the stay does."""
    stay = household.get("stay_years")
    if stay is not None and stay > money.years:
        household.assume("stay_years", Guess(value=stay, code="account_is_shorter"))


def money_of(node: Node) -> Money:
    """The conventions of the account."""
    swap = node.child_if_given("inverter_swap")
    if swap is None:
        node.assume("inverter_swap")
    return Money(
        years=node.take("years"),
        discount_rate_share=node.take("discount_rate_share"),
        price_growth_share=node.take("price_growth_share"),
        ageing_share_per_year=node.take("ageing_share_per_year"),
        inverter_swap=None if swap is None else InverterSwap(year=swap.take("year"), amount=swap.take("amount")),
        resale_share=node.take("resale_share"),
        running_cost_per_year=node.take("running_cost_per_year"),
    )
