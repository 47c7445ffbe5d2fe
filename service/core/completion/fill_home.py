"""What is the site, the circuit, the home, the meter, the tariff and the account, as far as was said?"""

from collections.abc import Mapping
from datetime import date

from service.core.completion.node import Guess, Node, listed
from service.core.completion.tables import DefaultTables
from service.core.errors import ContradictionError
from service.core.model.facts import (
    AtHome,
    Household,
    InverterSwap,
    Machine,
    Meter,
    Money,
    OtherSet,
    OutlayItem,
    SocketCircuit,
    Tariff,
    TariffPeriod,
)
from service.core.model.place import Site
from service.core.model.place_facts import PlaceFacts
from service.core.model.price import HouseholdPrice

NO_COUNTRY = "ZZ"  # ISO 3166 leaves ZZ to users; read as "no country known"
_VOLTAGES: Mapping[str, float] = {"US": 120.0, "CA": 120.0, "MX": 127.0, "BR": 127.0, "CO": 120.0, "JP": 100.0,
                                  "TW": 110.0, "VE": 120.0, "EC": 120.0}  # fmt: skip
_DEMAND_BY_PERSONS = {1: 1300.0, 2: 1900.0, 3: 2500.0, 4: 2900.0}


def site_of(node: Node, place: PlaceFacts) -> Site:
    """The complete site, from the caller and the tables' facts of the place."""
    climate = place.climate
    coldest = round(climate.coldest_air_c, 1)
    return Site(
        latitude_deg=node.get("latitude_deg"),
        longitude_deg=node.get("longitude_deg"),
        elevation_m=node.take("elevation_m", Guess(value=round(climate.elevation_m, 1))),
        time_zone=node.take("time_zone", Guess(value=place.time_zone)),
        rule_area=node.take("rule_area", Guess(value=place.country or NO_COUNTRY)),
        ground_reflectance_share=node.take("ground_reflectance_share"),
        terrain=node.take("terrain"),
        coldest_air_c=node.take("coldest_air_c", Guess(value=coldest, low=coldest - 5, high=coldest + 5)),
        basic_wind_velocity_m_per_s=node.get("basic_wind_velocity_m_per_s"),
        people_below=node.get("people_below"),
        children=node.get("children"),
    )


def circuit_of(node: Node | None, area: str) -> SocketCircuit | None:
    """The circuit as far as described, None where it was not. What decides about it is never guessed."""
    if node is None:
        return None
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
    )


def _other_set(node: Node) -> OtherSet:
    power = node.take("ac_power_w")
    panels = node.take("panel_power_w", Guess(value=round(1.1 * power, 1)))
    return OtherSet(ac_power_w=power, panel_power_w=panels, same_circuit=node.take("same_circuit"))


def household_of(node: Node) -> Household:
    """The complete household; demand from its own hours where those were given."""
    values = (node.get("demand") or {}).get("values_w")
    if values is not None and len(values) not in {24, 168, 8760, 8784}:
        where = f"{node.at('demand')}/values_w"
        raise ContradictionError(
            where, f"has {len(values)} values", given=len(values),
            accepted="24 (a day), 168 (a week), 8760 or 8784 (a year) mean powers in W",
        )  # fmt: skip
    persons = node.take("persons")
    demand = node.take("demand_kwh_per_year", _demand(values, persons))
    machines = [_machine(n) for n in node.children("machines")]
    return Household(
        demand_kwh_per_year=demand,
        persons=persons,
        always_on_w=node.take("always_on_w", _always_on(values, demand)),
        at_home=_at_home(node.child_if_given("at_home")),
        machines=listed(node, "machines", machines),
        values_w=None if values is None else tuple(values),
        stay_years=node.get("stay_years"),
    )


def _demand(values: list[float] | None, persons: int) -> Guess:
    if values is not None:
        kwh = round(sum(values) / len(values) * 8.76, 1)
        return Guess(value=kwh, code="sum_of_own_hours")
    kwh = _DEMAND_BY_PERSONS.get(persons, 2900.0 + 500.0 * (persons - 4))
    return Guess(value=kwh, code="usual_demand", low=0.6 * kwh, high=1.6 * kwh)


def _always_on(values: list[float] | None, demand: float) -> Guess:
    if values is not None:
        return Guess(value=round(min(values), 1), code="least_of_own_hours")
    mean_w = demand / 8.76
    return Guess(value=round(0.28 * mean_w, 1), code="share_of_demand", low=round(0.15 * mean_w, 1),
                 high=round(0.45 * mean_w, 1))  # fmt: skip


def _machine(node: Node) -> Machine:
    return Machine(
        name=node.take("name"),
        kwh_a_run=node.take("kwh_a_run"),
        runs_per_week=node.take("runs_per_week"),
        usual_hour=node.take("usual_hour"),
    )


def _at_home(node: Node | None) -> AtHome | None:
    if node is None:
        return None
    days = [tuple((pair[0], pair[1]) for pair in node.take(name)) for name in ("weekday", "weekend")]
    return AtHome(weekday=days[0], weekend=days[1])


def meter_of(node: Node) -> Meter:
    """The meter; whether it sums phases stays None where nobody said."""
    return Meter(counts=node.take("counts"), sums_phases=node.get("sums_phases"), netting=node.take("netting"))


def tariff_of(node: Node, area: str, tables: DefaultTables, as_of: date) -> Tariff | None:
    """The tariff as given, else the area's dated price; None where no price is known (it is asked for, not guessed).

    Raises:
        ContradictionError: the periods do not follow each other in time.
    """
    found = tables.prices.of(area)
    currency = node.get("currency")
    if found is not None and currency not in {None, found.currency}:
        found = None  # a price in another currency is no figure for this caller
    periods = node.children("periods") or [Node({}, f"{node.at('periods')}/0", node.log)]
    if found is None and any(period.get("import_price_per_kwh") is None for period in periods):
        return None
    if currency is None:
        if found is None:
            raise ContradictionError(
                node.at("currency"), f"is missing, and none is known for {area}", accepted="an ISO 4217 code",
                example="EUR",
            )  # fmt: skip
        currency = node.take("currency", Guess(value=found.currency))
    filled = tuple(_period(period, found, as_of) for period in periods)
    for period, before, after in zip(periods[1:], filled, filled[1:], strict=False):
        if before.valid_from >= after.valid_from:
            raise ContradictionError(
                period.at("valid_from"), "does not come after the period before it", given=after.valid_from,
                accepted="periods with the oldest first, no two from the same day",
            )  # fmt: skip
    return Tariff(currency=currency, periods=filled)


def _period(node: Node, found: HouseholdPrice | None, as_of: date) -> TariffPeriod:
    price = None
    if found is not None:
        figure = found.price_per_kwh
        # fixed charges inside the average do not shrink with use: a kWh saved is then worth less, never more
        high = figure if found.fixed_charges_inside else 1.25 * figure
        price = Guess(value=figure, low=round(0.75 * figure, 4), high=round(high, 4),
                      source=f"household average, {found.period}: {found.source}")  # fmt: skip
    # a price that somebody named for what is sent out is not dropped for want of the word beside it
    named = None if node.get("export_price_per_kwh") is None else Guess(value="paid", code="export_price_named")
    return TariffPeriod(
        valid_from=node.take("valid_from", Guess(value=f"{as_of.year:04d}-01-01")),
        import_price_per_kwh=node.take("import_price_per_kwh", price),
        export=node.take("export", named),
        export_price_per_kwh=node.take("export_price_per_kwh"),
    )


def outlay_of(node: Node) -> tuple[OutlayItem, ...] | None:
    """What has to be paid; None where nothing was named."""
    items = node.children("items")
    return tuple(OutlayItem(what=n.take("what"), amount=n.take("amount")) for n in items) or None


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
