"""What is taken for site, home, meter, tariff and money where the caller gives nothing?"""

from service.core.completion.rows import NEUTRAL, TRADE, WARY, Row

_USE = "Stromspiegel 2025 as quoted: two persons in a flat 1900 kWh; other sizes scaled, from memory"

_IN_THE_SHARE = "not looked at beside energy and the share used at home, which are taken to have it in them"


def _row(pointer: str, **row: object) -> Row:
    return Row(pointer=pointer, **row)  # type: ignore[arg-type]


SITE_ROWS: tuple[Row, ...] = (
    _row("/site/elevation_m", code="elevation_of_table", rule="mean height of the climate table's cell", unit="m",
         source="the climate table's terrain"),
    _row("/site/time_zone", code="zone_of_place", rule="the zone that holds the coordinates", source="time-zone map "
         "of the world packaged with the service; please confirm near borders"),
    _row("/site/rule_area", code="country_of_zone", rule="the country of the time zone; ZZ where none is known",
         source="the zone's country; please confirm, and name the region where rules differ within a country"),
    _row("/site/ground_reflectance_share", code="usual_ground", value=0.2, source=f"grass, soil and paving: {TRADE}",
         low=0.1, high=0.35, moves_energy=True),
    _row("/site/terrain", code="usual_terrain", value="suburb", source=NEUTRAL),
    _row("/site/basic_wind_velocity_m_per_s", code="wind_without_map", value=27.5, unit="m/s", source="no map is kept: "
         "wind zones of European national annexes to EN 1991-1-4 reach from 21 to 33 m/s, from memory; coasts with "
         "tropical storms have more", low=21.0, high=36.0),
    _row("/site/coldest_air_c", code="coldest_estimate", rule="a deliberately cold estimate from the place's monthly "
         "means; low and high 5 K about it", unit="C", source="estimate from monthly mean temperatures, not a record"),
)  # fmt: skip

HOME_ROWS: tuple[Row, ...] = (
    _row("/downtime_days_per_year", code="usual_downtime", value=2.0, unit="d", source=TRADE, low=0.0, high=10.0,
         moves_energy=True),
    _row("/energy/year_kwh", code="bare_number", rule="the number given, with a relative standard deviation of 0.08; "
         "low and high hold 95 %", unit="kWh", source="our own account of a set that is wholly described, with "
         "some doubt of its plane"),
    _row("/use/self_used_share", code="bare_number", rule="the share given, with a relative standard deviation of "
         "0.14; low and high hold 95 %", source="as of a home of which only the year is known"),
    _row("/household/persons", code="usual_home", value=2, source=_USE),
    _row("/household/demand_kwh_per_year", code="usual_demand", rule="flat by persons: 1300, 1900, 2500, 2900, then "
         "500 a head; low and high 0.6 and 1.6 of it", unit="kWh", source=_USE),
    _row("/household/demand_kwh_per_year", code="sum_of_own_hours", rule="the sum of the home's own hours", unit="kWh",
         source="computed from the values given"),
    _row("/household/demand_kwh_per_year", code="own_hours_say_otherwise", rule="the sum of the home's own hours, "
         "whatever was said beside them", unit="kWh", source="computed from the values given"),
    _row("/household/always_on_w", code="share_of_demand", rule="0.15 of the mean power; low and high 0.08 and 0.3 of "
         "it", unit="W", source="0.147 measured in one home over a year of minutes (5th percentile; UCI Individual "
         "household electric power consumption, CC BY 4.0); surveys from memory: 9 to 16 % in England (Household "
         "Electricity Survey 2012), 23 % in California (home idle load, 2015); the range is our own choice about them"),
    _row("/household/always_on_w", code="least_of_own_hours", rule="of a year of own hours what 99 % of them exceed; "
         "of an averaged year its least hour; of a mean day or week the least hour of the day times that over the "
         "mean", unit="W",
         source="computed from the values given"),
    _row("/household/always_on_w", code="even_hours", rule="0.3 of the mean of own hours, 0.15 of the mean of a "
         "profile, where the hours are so even that their least would be more; low 0.08 of the mean, high that least",
         unit="W", source="the share and the range that stand for a home of which only the year is known"),
    _row("/household/machines", code="none_named", value=[], source=NEUTRAL),
    _row("/household/demand/kind", code="hours_differ", value="own_hours", source="computed from the values given"),
    _row("/household/demand/kind", code="days_repeat", rule="averaged, as fewer than half of the days have a course "
         "of their own", source="computed from the values given"),
    _row("/household/demand/filled_share", code="gaps_filled", rule="a gap of the log takes the mean of the known "
         "hours at that hour of day on that kind of day (Monday to Friday, weekend) in that month; else over all "
         "months, else over all days", source="computed from the values given"),
    _row("/household/other_generation/plane/tilt_deg", code="usual_roof", value=35.0, unit="deg", source=TRADE,
         low=15.0, high=50.0),
    _row("/household/other_generation/plane/azimuth_deg", code="towards_noon", rule="towards the midday sun",
         unit="deg", source=NEUTRAL),
    _row("/household/machines/*/name", code="not_said", value="machine", source=NEUTRAL),
    _row("/household/machines/*/kwh_a_run", code="usual_machine", value=0.9, unit="kWh", source=TRADE, low=0.4,
         high=1.5),
    _row("/household/machines/*/kwh_a_run", code="more_than_the_home_draws", rule="as much less as all machines need "
         "more than the home draws in a year above what is always on", unit="kWh", source="computed from the values "
         "given"),
    _row("/household/machines/*/runs_per_week", code="usual_machine", value=4.0, source=TRADE, low=1.0, high=7.0),
    _row("/household/machines/*/usual_hour", code="usual_machine", value=19, unit="h", source=TRADE),
    _row("/household/at_home/weekday", code="not_said", value=[], source=NEUTRAL),
    _row("/household/at_home/weekend", code="not_said", value=[], source=NEUTRAL),
    _row("/meter/counts", code="not_said", value="not_known", source=NEUTRAL),
    _row("/meter/netting", code="usual_netting", value="instant", source=WARY),
    _row("/meter/netting", code="nets_where_a_period_does", rule="as given; it counts in the periods whose surplus is "
         "netted", source=NEUTRAL),
    _row("/meter/netting", code="netted_over_the_year", rule="the year, where a period nets", source="our own choice: "
         "as most rules of netting have it"),
)  # fmt: skip

MONEY_ROWS: tuple[Row, ...] = (
    _row("/energy", code="shared_by_days", rule="a year within which prices change is shared by days, where only its "
         "sum of energy is known", source="our own choice: nothing is known of the seasons"),
    _row("/inverter/export_limit_w", code="in_the_share_already", rule=_IN_THE_SHARE, unit="W", source=NEUTRAL),
    _row("/inverter/export_limit_w", code="nothing_sent_out", rule="as given: what is not used at home is thrown away, "
         "and earns, nets and costs nothing, whatever the tariff says", unit="W", source="what such a limit does"),
    _row("/meter/sums_phases", code="in_the_share_already", rule=_IN_THE_SHARE, source=NEUTRAL),
    _row("/household/demand", code="in_the_share_already", rule=_IN_THE_SHARE, source=NEUTRAL),
    _row("/household/other_generation", code="in_the_share_already", rule=_IN_THE_SHARE, source=NEUTRAL),
    _row("/household/stay_years", code="account_is_shorter", rule="as given; the account ends before", unit="a",
         source=NEUTRAL),
    _row("/tariff/currency", code="currency_of_area", rule="the currency of the price table for the area",
         source="ISO 4217"),
    _row("/tariff/periods/*/valid_from", code="from_this_year", rule="1 January of the year of the question",
         source=NEUTRAL),
    _row("/tariff/periods/*/valid_from", code="card_ends", rule="the day after the last of the area's rule card",
         source="dated rule card"),
    _row("/tariff/periods/*/valid_from", code="holds_before", rule="as given; held to count from the day of the "
         "question on, as nothing is known of the time before", source=NEUTRAL),
    _row("/tariff/periods/*/import_price_per_kwh", code="price_of_area", rule="the newest household average of the "
         "area; where fixed charges are inside 0.875 of it; low 0.75; none where no figure is known", unit="money/kWh",
         source="dated price table"),
    _row("/tariff/periods/*/export", code="surplus_unpaid", value="unpaid", source=WARY),
    _row("/tariff/periods/*/export", code="paid_as_priced", rule="paid, where a price for it is given",
         source="computed from the values given"),
    _row("/tariff/periods/*/export", code="netting_ends", rule="where netting ends by the area's rule card: unpaid if "
         "the next card says so; else paid at the period's own export price, unpaid where it has none",
         source="dated rule card"),
    _row("/tariff/periods/*/export", code="meter_runs_backwards", rule="netted, on a meter that runs backwards: in the "
         "first period whatever was said, in a later one where nothing was said", source="what such a meter does"),
    _row("/tariff/periods/*/export", code="meter_runs_backwards_no_rule_known", rule="netted, on a meter that runs "
         "backwards, whatever was said; no place is known and so no end of its rule", source="what such a meter does"),
    _row("/tariff/periods/*/export", code="no_rule_known", rule="as it was said, for no place is known and so no end "
         "of its rule", source="no rule card"),
    _row("/tariff/periods/*/export", code="no_later_rule_known", rule="as it was said, beyond the end of the area's "
         "rule card", source="dated rule card"),
    _row("/tariff/periods/*/export_price_per_kwh", code="surplus_unpaid", value=0.0, unit="money/kWh", source=WARY),
    _row("/tariff/periods/*/export_price_per_kwh", code="no_register_for_it", rule="nothing, on a meter that runs "
         "backwards: what is left over has no register", source="what such a meter does"),
    _row("/outlay/items/*/what", code="not_said", value="item", source=NEUTRAL),
    _row("/outlay/items/*/what", code="fetching_beside", rule="as given; it is paid on top of fetching",
         source=NEUTRAL),
    _row("/outlay/items/*/amount", code="not_said", value=0.0, unit="money", source=NEUTRAL),
    _row("/outlay/items/*/second_hand", code="panels_by_name", rule="yes where it is called panel or panels",
         source=NEUTRAL),
    _row("/outlay/faulty_share", code="none_faulty", value=0.0, source="our own choice: no fault is counted that "
         "nobody mentioned; panels that were in use may bring some", low=0.0, high=0.1),
    _row("/outlay/fetching/km", code="not_said", value=0.0, unit="km", source=NEUTRAL),
    _row("/outlay/fetching/per_km", code="not_said", value=0.0, unit="money/km", source=NEUTRAL),
    _row("/outlay/fetching/trips", code="one_trip", value=1, source=NEUTRAL, low=1.0, high=2.0),
    _row("/outlay/fetching/hours", code="not_said", value=0.0, unit="h", source=NEUTRAL),
    _row("/outlay/fetching/per_hour", code="not_said", value=0.0, unit="money/h", source=NEUTRAL),
    _row("/money/years", code="usual_account", value=15, unit="a", source="our own choice: shorter than a panel lives, "
         "about as long as a plug-in inverter", low=10.0, high=25.0),
    _row("/money/discount_rate_share", code="usual_account", value=0.03, source="our own choice: what a careful saver "
         "could earn", low=0.0, high=0.06),
    _row("/money/price_growth_share", code="no_growth_promised", value=0.0, source=WARY, low=-0.02, high=0.03),
    _row("/money/ageing_share_per_year", code="usual_ageing", value=0.005, source="Jordan and Kurtz 2013, Progress in "
         "Photovoltaics 21(1), 12-29: median 0.5 % a year", low=0.002, high=0.012),
    _row("/money/inverter_swap", code="no_swap_counted", rule="no replacement is counted", source="our own choice; "
         "give a year and an amount to count one"),
    _row("/money/inverter_swap/year", code="usual_swap", value=11, unit="a", source=TRADE, low=8.0, high=18.0),
    _row("/money/inverter_swap/amount", code="not_said", value=0.0, unit="money", source=NEUTRAL),
    _row("/money/resale_share", code="no_resale", value=0.0, source=WARY, low=0.0, high=0.4),
    _row("/money/running_cost_per_year", code="no_running_cost", value=0.0, unit="money", source=NEUTRAL),
)  # fmt: skip
