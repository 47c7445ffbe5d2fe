"""What is a complete request made of: the facts of panel, array, inverter, circuit, home, tariff and outlay?

A field is spelled here, in the schema of the interface and in the table of defaults. None means "not there" (no
overhang) or, for a rating, "unknown and not to be guessed"; it never means "choose for me": whatever was open has been
settled before one of these is made.
"""

from dataclasses import dataclass

from service.core.model.fixing import Fixing
from service.core.model.place import Cover, HandRail, Overhang, Plane, RowInFront, Shade, SideWall, Site, SkylinePoint
from service.core.model.storage import Storage


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """The datasheet of one panel at standard test conditions (1000 W/m2, cell 25 C, AM 1.5).

    ``cell_kind``: mono, poly, topcon, hjt, back_contact, cdte, cigs, amorphous. ``connector``: locking_4mm,
    older_locking, older_unlocked, bare, not_known. ``glass``: glass_foil, glass_glass. ``history``: unused, roof,
    storage, not_known. ``power_tolerance_pct``: least and most that the label allows, in per cent of rated power.
    ``half_cells``: are its cells cut in two? None: nobody said, and they count as whole, which costs no less.
    """

    rated_power_w: float
    open_circuit_voltage_v: float
    short_circuit_current_a: float
    max_power_voltage_v: float
    max_power_current_a: float
    cells_in_series: int
    voc_coefficient_pct_per_k: float
    isc_coefficient_pct_per_k: float
    power_coefficient_pct_per_k: float
    max_system_voltage_v: float | None
    max_series_fuse_a: float | None
    cell_kind: str
    bifaciality_share: float
    length_mm: float
    width_mm: float
    weight_kg: float
    age_years: float
    power_tolerance_pct: tuple[float, float]
    connector: str
    glass: str
    history: str
    model_code: str | None
    connector_make: str | None = None
    half_cells: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Array:
    """Equal panels, wired one way (``joined``), in one plane, on one input (counted from 1).

    ``joined``: series, parallel, or one_string: in series, and so with the other arrays of its input.
    ``mount``: hung_on_rail, behind_rail, balcony_floor, wall, fence, ground_frame, flat_roof, sloped_roof, or
    free_standing where nobody said. ``orientation``: upright or lengthwise. ``hottest_cell_c``: at which the operating
    voltage is checked, where the caller knows better than the typical year; None: the year's hottest hour.
    ``rear_light_share``: light on the rear over light on the front in full sun; None: by mount and ground.
    ``string_fuse_a``: rating of the fuse in each of its strings; None: there is none, or nobody said.
    ``count_rear_light``: does the year count what the rear of two-sided panels gives? ``facade_azimuth_deg``: the way
    in which slab and side walls look out, which stay when the panel is turned; None: as the panel looks.
    ``facing_reflectance_share``: of what makes the skyline, 0 to 1; None: as if it were black, with a doubt.
    """

    name: str
    input: int
    count: int
    joined: str
    mount: str
    plane: Plane
    orientation: str
    height_above_ground_m: float
    skyline: tuple[SkylinePoint, ...]
    overhang: Overhang | None
    side_walls: tuple[SideWall, ...]
    cover: Cover | None
    shade: tuple[Shade, ...]
    dirt_share: float
    mismatch_share: float
    lead_length_m: float
    lead_mm2: float
    panel: Panel
    hottest_cell_c: float | None = None
    rear_light_share: float | None = None
    count_rear_light: bool = False
    string_fuse_a: float | None = None
    fixing: Fixing | None = None
    facade_azimuth_deg: float | None = None
    hand_rail: HandRail | None = None
    row_in_front: RowInFront | None = None
    facing_reflectance_share: float | None = None

    @property
    def slab(self) -> Overhang | None:
        """The slab above, if it reaches out at all: one that does not is as none, and tells of no facade."""
        return self.overhang if self.overhang is not None and self.overhang.reaches_out_m > 0.0 else None

    @property
    def walls(self) -> tuple[SideWall, ...]:
        """Those side walls that reach out at all, likewise."""
        return tuple(wall for wall in self.side_walls if wall.reaches_out_m > 0.0)

    @property
    def surrounded(self) -> bool:
        """Does anything stand around it that hides light?"""
        return any((self.skyline, self.slab, self.walls, self.shade, self.hand_rail, self.row_in_front))


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """One input of an inverter and its limits.

    The short-circuit limit has two meanings: ``max_short_circuit_current_a`` is the absolute maximum (compare with
    1.25 x Isc), ``max_panel_short_circuit_current_a`` the largest panel's label value (compare with Isc).
    ``max_panel_power_kind``: maximum, recommended or not_known; it is about the panels' rating and caps nothing.
    ``max_input_power_w`` is the most that the input draws, None where the datasheet names no such limit.
    """

    max_input_voltage_v: float | None
    tracking_min_v: float
    tracking_max_v: float
    start_voltage_v: float
    max_current_a: float
    max_short_circuit_current_a: float | None
    max_panel_short_circuit_current_a: float | None
    max_panel_power_w: float | None
    max_panel_power_kind: str
    connector_pairs: int
    max_input_power_w: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Inverter:
    """A micro-inverter: ``inputs`` has one entry for each input. ``set_limit_w`` is what it is set to (<= rating).

    ``efficiency_weighting``: european or californian. ``export_limit_w``: None where surplus may leave freely.
    ``seat``: behind_panel, open_shade, sunlit, closed_box, indoors. ``grid_voltage_v``: nominal voltage of
    the grid that it is made for; ``asks_residual_current_device``: type_a or type_b, as its maker's sheet asks for;
    ``connector_make``: make and type of the connectors at its d.c. leads; None where
    nobody said.
    """

    ac_power_w: float
    set_limit_w: float
    input_count: int
    inputs: tuple[Input, ...]
    weighted_efficiency_share: float
    efficiency_weighting: str
    night_draw_w: float
    seat: str
    certificates: tuple[str, ...] | None
    export_limit_w: float | None
    grid_voltage_v: float | None = None
    asks_residual_current_device: str | None = None
    connector_make: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherSet:
    """Another plug-in set behind the same meter."""

    ac_power_w: float
    panel_power_w: float
    same_circuit: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SocketCircuit:
    """The final circuit of the home and the lead to it; None where nobody said.

    ``plug``: household, special_connector, fixed, not_known. ``laying``: in_insulated_wall, under_plaster, on_wall,
    in_conduit_in_insulated_wall, in_conduit, in_air. ``residual_current_device``: type_a, type_f, type_b, type_ac,
    one_way, none, not_known. ``lead_route``: direct, window, door, wall. ``shared_neutral``: with others.
    """

    plug: str
    breaker_a: float | None
    voltage_v: float
    cable_mm2: float | None
    laying: str | None
    ambient_c: float
    dedicated: bool | None
    residual_current_device: str
    lead_length_m: float
    lead_mm2: float
    feeder_length_m: float
    indoors: bool | None
    lead_route: str | None
    other_sets: tuple[OtherSet, ...]
    shared_neutral: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AtHome:
    """Hours at home as (from, to) pairs of wall-clock hours, on weekdays and at the weekend."""

    weekday: tuple[tuple[float, float], ...]
    weekend: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Machine:
    """A machine whose hour can be chosen: energy of one run, runs a week, the hour it usually starts."""

    name: str
    kwh_a_run: float
    runs_per_week: float
    usual_hour: int


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherGeneration:
    """A plant that stands on the roof already and takes its share of the demand first.

    Its hours are ``values_w`` (8760, rows in standard time); else those of ``panel_power_w`` in ``plane``, brought to
    ``year_kwh`` where that is known.
    """

    panel_power_w: float | None
    plane: Plane | None
    year_kwh: float | None
    values_w: tuple[float, ...] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Household:
    """What the home uses and when.

    ``values_w``: the caller's own mean powers, 24, 168, 8760 or 8784 of hours, 35040 or 35136 of quarter-hours;
    else None. ``values_kind``: own_hours (each hour as it was) or averaged (a profile that repeats); None where the
    number of values tells. ``filled_share``: share of the hours that were gaps in a meter's log.
    """

    demand_kwh_per_year: float
    persons: int
    always_on_w: float
    at_home: AtHome | None
    machines: tuple[Machine, ...]
    values_w: tuple[float, ...] | None
    stay_years: float | None
    values_kind: str | None = None
    filled_share: float = 0.0
    other_generation: OtherGeneration | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Meter:
    """``counts``: two_way, reversing, one_way, not_known. ``netting``: instant, quarter_hour, hour, month, year."""

    counts: str
    sums_phases: bool | None
    netting: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Rate:
    """Prices of some hours: in ``months`` (1 to 12), on ``days``, between two wall-clock times.

    ``days``: all, weekday (Monday to Friday), weekend, or one day by its name, monday to sunday.

    None of these means always; where ``from_clock`` ("HH:MM") is the later time, it spans midnight, and each hour
    counts on its own day. A price of None is the period's own.
    """

    name: str | None
    months: tuple[int, ...] | None
    days: str | None
    from_clock: str | None
    to_clock: str | None
    import_price_per_kwh: float | None
    export_price_per_kwh: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class HourlyPrices:
    """Prices that change from hour to hour: 24 (wall-clock hours of a day), 168 (from Monday 00:00) or 8760 values.

    8760 are rows in standard time from 1 January. Without export prices the period's own holds for what is sent out.
    """

    import_prices_per_kwh: tuple[float, ...]
    export_prices_per_kwh: tuple[float, ...] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class TariffPeriod:
    """Prices from ``valid_from`` on (ISO date) until the next period. ``export``: unpaid, paid or netted.

    The first of ``rates`` that holds in an hour gives its prices, the period's own are the rest. With ``hourly``
    prices the period's own are their means. The fees come with the set, by the year or by kVA of the inverter's
    rating; a standing charge that is paid either way is none of them. ``export_tax_share`` is taken off what the
    export price earns. None: nothing of the kind.
    """

    valid_from: str
    import_price_per_kwh: float
    export: str
    export_price_per_kwh: float
    rates: tuple[Rate, ...] = ()
    hourly: HourlyPrices | None = None
    fee_per_year: float | None = None
    fee_per_kva_year: float | None = None
    export_tax_share: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tariff:
    """Dated prices, oldest first, in one ``currency`` (ISO 4217)."""

    currency: str
    periods: tuple[TariffPeriod, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlayItem:
    """One thing to be paid before the set runs; a rebate is negative. ``second_hand``: used panels, None: not said."""

    what: str
    amount: float
    second_hand: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fetching:
    """Fetching things oneself: ``km`` one way, driven there and back on each of ``trips``; ``hours`` in all.

    None where nobody put a price on own time.
    """

    km: float
    per_km: float
    trips: int
    hours: float | None
    per_hour: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlay:
    """What has to be paid before the set runs; what nobody named is None and costs nothing.

    ``faulty_share``: of the second-hand panels, how many prove faulty. ``freight_less``, ``freight_more``: how much
    less or more the freight may come to, where it is a guess.
    """

    items: tuple[OutlayItem, ...]
    freight: float | None
    fetching: Fetching | None
    registration: float | None
    faulty_share: float | None
    freight_less: float | None = None
    freight_more: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class InverterSwap:
    """The inverter replaced once, in which year and for how much."""

    year: int
    amount: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Money:
    """The conventions of the account: flows at year's end, year 1 un-aged and at today's price, outlay at year 0."""

    years: int
    discount_rate_share: float
    price_growth_share: float
    ageing_share_per_year: float
    inverter_swap: InverterSwap | None
    resale_share: float
    running_cost_per_year: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Setup:
    """A complete request: everything that the rooms need to answer any question about this set.

    ``outlay`` is None where no price was given (then "worth up to" is the answer), ``socket_circuit`` where the
    circuit was not described (then nothing is said about it), ``tariff`` where no price is known for the area,
    ``storage`` where nobody asked about one.
    """

    site: Site
    arrays: tuple[Array, ...]
    inverter: Inverter
    socket_circuit: SocketCircuit | None
    downtime_days_per_year: float
    household: Household
    meter: Meter
    tariff: Tariff | None
    outlay: Outlay | None
    money: Money
    storage: Storage | None = None
