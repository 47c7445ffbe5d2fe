"""Complete, plausible values of the invented scenario for tests; each builder takes changes by keyword."""

from dataclasses import replace
from typing import Any

from service.core.model import facts
from service.core.model.place import Plane, Site


def panel(**changes: Any) -> facts.Panel:
    """Heliora HL-440, a glass-foil panel of 54 full cells (invented)."""
    base = facts.Panel(
        rated_power_w=440, open_circuit_voltage_v=39.4, short_circuit_current_a=14.1, max_power_voltage_v=32.9,
        max_power_current_a=13.38, cells_in_series=54, voc_coefficient_pct_per_k=-0.26,
        isc_coefficient_pct_per_k=0.045, power_coefficient_pct_per_k=-0.31, max_system_voltage_v=1000,
        max_series_fuse_a=25, cell_kind="mono", bifaciality_share=0, length_mm=1722, width_mm=1134, weight_kg=21.5,
        age_years=0, power_tolerance_pct=(0, 3), connector="locking_4mm", glass="glass_foil", history="unused",
        model_code="HL-440",
    )  # fmt: skip
    return replace(base, **changes)


def one_input(**changes: Any) -> facts.Input:
    """An input of the Quayside QS-800 (invented)."""
    base = facts.Input(
        max_input_voltage_v=60, tracking_min_v=16, tracking_max_v=55, start_voltage_v=22, max_current_a=14,
        max_short_circuit_current_a=18, max_panel_short_circuit_current_a=None, max_panel_power_w=600,
        max_panel_power_kind="recommended", connector_pairs=1,
    )  # fmt: skip
    return replace(base, **changes)


def inverter(**changes: Any) -> facts.Inverter:
    """Quayside QS-800 with two inputs (invented)."""
    base = facts.Inverter(
        ac_power_w=800, set_limit_w=800, input_count=2, inputs=(one_input(), one_input()),
        weighted_efficiency_share=0.955, efficiency_weighting="european", night_draw_w=0.1, seat="behind_panel",
        certificates=None, export_limit_w=None,
    )  # fmt: skip
    return replace(base, **changes)


def array(**changes: Any) -> facts.Array:
    """One HL-440 upright on the railing of a south-east balcony, nothing around it."""
    base = facts.Array(
        name="left", input=1, count=1, joined="series", mount="hung_on_rail",
        plane=Plane(tilt_deg=90, azimuth_deg=150), orientation="upright", height_above_ground_m=11, skyline=(),
        overhang=None, side_walls=(), cover=None, shade=(), dirt_share=0.02, mismatch_share=0, lead_length_m=3,
        lead_mm2=4, panel=panel(),
    )  # fmt: skip
    return replace(base, **changes)


def site(**changes: Any) -> Site:
    """Kranichwerft, a housing co-op in the invented Baltic port of Nordmole."""
    base = Site(
        latitude_deg=54.2, longitude_deg=12.3, elevation_m=8, time_zone="Europe/Berlin", rule_area="DE",
        ground_reflectance_share=0.2, terrain="suburb", coldest_air_c=-14, basic_wind_velocity_m_per_s=27.5,
        people_below=True, children=False,
    )  # fmt: skip
    return replace(base, **changes)


def socket_circuit(**changes: Any) -> facts.SocketCircuit:
    """A 16 A circuit of 1.5 mm2 in conduit, too thin for 800 W on top."""
    base = facts.SocketCircuit(
        plug="household", breaker_a=16, voltage_v=230, cable_mm2=1.5, laying="in_conduit", ambient_c=30,
        dedicated=False, residual_current_device="type_a", lead_length_m=10, lead_mm2=1.5, feeder_length_m=0,
        indoors=True, lead_route="window", other_sets=(),
    )  # fmt: skip
    return replace(base, **changes)


def household(**changes: Any) -> facts.Household:
    """Two persons in a flat."""
    base = facts.Household(
        demand_kwh_per_year=1900, persons=2, always_on_w=60, at_home=None, machines=(), values_w=None, stay_years=6
    )
    return replace(base, **changes)


def tariff(**changes: Any) -> facts.Tariff:
    """A flat price, surplus unpaid."""
    base = facts.Tariff(
        currency="EUR",
        periods=(
            facts.TariffPeriod(
                valid_from="2026-01-01", import_price_per_kwh=0.34, export="unpaid", export_price_per_kwh=0.0
            ),
        ),
    )
    return replace(base, **changes)


def money(**changes: Any) -> facts.Money:
    """Fifteen years at three per cent, one inverter swap."""
    base = facts.Money(
        years=15, discount_rate_share=0.03, price_growth_share=0.01, ageing_share_per_year=0.005,
        inverter_swap=facts.InverterSwap(year=11, amount=130), resale_share=0, running_cost_per_year=0,
    )  # fmt: skip
    return replace(base, **changes)


def outlay(changes: dict[str, Any] | None = None, /, **amounts: float) -> facts.Outlay:
    """Things with their amounts; no freight, trips, registration or faults unless ``changes`` says so."""
    base = facts.Outlay(
        items=tuple(facts.OutlayItem(what=what, amount=amount) for what, amount in amounts.items()),
        freight=None, fetching=None, registration=None, faulty_share=None,
    )  # fmt: skip
    return replace(base, **(changes or {}))


def setup(**changes: Any) -> facts.Setup:
    """The Kranichwerft set: two panels on two inputs of an 800 W inverter."""
    base = facts.Setup(
        site=site(), arrays=(array(), array(name="right", input=2)), inverter=inverter(), socket_circuit=None,
        downtime_days_per_year=2, household=household(),
        meter=facts.Meter(counts="two_way", sums_phases=True, netting="instant"), tariff=tariff(),
        outlay=outlay(panels=96, inverter=149, brackets=58, leads=24, fetching=17),
        money=money(),
    )  # fmt: skip
    return replace(base, **changes)
