"""Which parts of a request cannot both hold? Each value by itself is in bounds already.

Every contradiction tells what would be accepted at its place, and an example that resolves it there.
"""

from datetime import date, datetime, timedelta
from math import floor

from service.api.schemas.array import ArrayIn
from service.api.schemas.base import In
from service.api.schemas.guide import guide_of
from service.api.schemas.household import DEMAND_LENGTHS, DemandIn, HouseholdIn, MeterIn
from service.api.schemas.inverter import InverterIn
from service.api.schemas.mistakes import NOTHING, Found, Mistake, mistake_of
from service.api.schemas.money import TariffIn
from service.api.schemas.panel import PanelIn
from service.api.schemas.requests import AppraisalIn, KnownLogIn, PaybackIn, YearKwhBandIn
from service.api.schemas.storage import StorageIn
from service.api.schemas.weather_contradictions import of_the_weather
from service.api.words import say
from service.core.completion import contradictions_of_tariff
from service.core.model.bounds import BOUNDS
from service.core.model.hours import HOURS

HOUR_MINUTES = 60
_ROUNDED = 0.02  # of figures that were rounded before they were sent

_COEFFICIENTS = (
    ("voc_coefficient_pct_per_k", "voc_coefficient_v_per_k", "voc_coefficient_mv_per_k"),
    ("isc_coefficient_pct_per_k", "isc_coefficient_a_per_k", "isc_coefficient_ma_per_k"),
)


def contradictions(request: In) -> list[Mistake]:
    """All contradictions of a request, in its own order."""
    found = Found()
    if isinstance(request, PaybackIn):
        _payback(request, found)
        if request.logbook is not None:
            _so_far(request.logbook, found)
    if isinstance(request, AppraisalIn):
        of_the_weather(request, found)
    request.contradict(found)
    if isinstance(request, AppraisalIn | PaybackIn):
        _of_the_set(request, found)
    return found.mistakes


def _of_the_set(request: AppraisalIn | PaybackIn, found: Found) -> None:
    """Those of panels, inverter and home, wherever a set is described."""
    if request.arrays and request.inverter:
        of_inputs(request.arrays, request.inverter, found)
    for at, array in enumerate(request.arrays or ()):
        of_panel(array.panel, f"/arrays/{at}/panel", found)
        lean = array.fixing
        if lean and lean.low_lean_out_deg is not None and lean.high_lean_out_deg is not None:
            where, low = f"/arrays/{at}/fixing/low_lean_out_deg", "low_lean_out_deg"
            _in_order(where, low, lean.low_lean_out_deg, lean.high_lean_out_deg, found)
    if request.inverter:
        of_inverter(request.inverter, "/inverter", found)
    if request.household:
        of_household(request.household, found)
    if request.tariff:
        of_tariff(request.tariff, request.meter, found)
    if request.storage:
        _storage(request.storage, found)


def contradictions_of_panel(panel: PanelIn, pointer: str) -> list[Mistake]:
    """Those of a panel that stands at ``pointer``."""
    found = Found()
    of_panel(panel, pointer, found)
    return found.mistakes


def contradictions_of_inverter(inverter: InverterIn, pointer: str) -> list[Mistake]:
    """Those of an inverter that stands at ``pointer``."""
    found = Found()
    of_inverter(inverter, pointer, found)
    return found.mistakes


def _so_far(log: KnownLogIn, found: Found) -> None:
    begin, end = (datetime.fromisoformat(time.upper()) for time in (log.from_time, log.to_time))
    if end <= begin:
        accepted, example = say("problems", "accepted.log_end"), (begin + timedelta(days=30)).isoformat()
        found.contradiction("/logbook/to_time", log.to_time, "log_end", accepted, example)


def _payback(request: PaybackIn, found: Found) -> None:
    plain = request.energy is not None or request.use is not None
    guide = guide_of(PaybackIn)
    needed = (
        ("energy", "use", *(("tariff",) if request.site is None else ())) if plain else ("site", "arrays", "inverter")
    )
    for name in needed:
        if getattr(request, name) is None:
            found.mistakes.append(
                Mistake(
                    code="missing",
                    pointer=f"/{name}",
                    problem=say("problems", "mistake.missing.payback"),
                    accepted=guide.accepted((name,)),
                    example=guide.example((name,)),
                )
            )
    for pointer, band in (
        ("/energy/year_kwh", request.energy.year_kwh if request.energy else None),
        ("/use/self_used_kwh", request.use.self_used_kwh if request.use else None),
    ):
        if isinstance(band, YearKwhBandIn):
            _band(band, pointer, found)
    if plain and request.arrays is not None:
        given = [array.given() for array in request.arrays]
        accepted = say("problems", "accepted.alone", {"beside": "energy" if request.energy is not None else "use"})
        found.contradiction("/arrays", given, "payback", accepted, NOTHING)
    _plain_use(request, found)
    if plain and request.storage is not None:
        accepted = say("problems", "accepted.not_here")
        found.contradiction("/storage", request.storage.given(), "storage_needs_hours", accepted, NOTHING)
    if plain and request.tariff is not None:
        _plain_tariff(request.tariff, request.inverter, found)


def _plain_use(request: PaybackIn, found: Found) -> None:
    """What is used at home is no more than what the home needs, and the share and the band of it are of one energy."""
    if request.energy is None or request.use is None:
        return
    year = request.energy.year_kwh
    year_kwh = year.middle if isinstance(year, YearKwhBandIn) else year
    used_kwh, share = request.use.self_used_share * year_kwh, request.use.self_used_share
    demand_kwh = (request.household.demand_kwh_per_year if request.household else None) or request.use.demand_kwh
    plant = request.use.other_generation
    if plant is not None and plant.self_used_kwh > plant.year_kwh * (1 + _ROUNDED):
        accepted = say("problems", "accepted.used_of_plant", {"most": plant.year_kwh})
        found.contradiction("/use/other_generation/self_used_kwh", plant.self_used_kwh, "used_of_plant", accepted,
                            plant.year_kwh)  # fmt: skip
    if demand_kwh is not None and used_kwh > demand_kwh * (1 + _ROUNDED):
        most = floor(1e4 * demand_kwh / year_kwh) / 1e4
        accepted = say("problems", "accepted.share_of_demand", {"most": most})
        found.contradiction("/use/self_used_share", share, "share_of_demand", accepted, most, used=round(used_kwh),
                            demand=demand_kwh)  # fmt: skip
    band = request.use.self_used_kwh
    if band is not None and abs(band.middle - used_kwh) > max(_ROUNDED * used_kwh, 1.0):
        example = {name: round(getattr(band, name) * used_kwh / band.middle, 2) if band.middle else round(used_kwh, 2)
                   for name in ("cautious", "middle", "hopeful")}  # fmt: skip
        accepted = say("problems", "accepted.band_of_share", {"used": round(used_kwh, 1)})
        found.contradiction("/use/self_used_kwh", band.given(), "band_of_share", accepted, example)


def _band(band: YearKwhBandIn, pointer: str, found: Found) -> None:
    """Cautious is the least, hopeful the most; the three in order are the example."""
    ends = [band.cautious, band.middle, band.hopeful]
    if ends != sorted(ends):
        example = dict(zip(("cautious", "middle", "hopeful"), sorted(ends), strict=True))
        found.contradiction(pointer, band.given(), "band", say("problems", "accepted.band"), example)


def of_inputs(arrays: list[ArrayIn], inverter: InverterIn, found: Found) -> None:
    """Arrays at inputs that the inverter has not."""
    count = inverter.input_count or (len(inverter.inputs) if inverter.inputs and len(inverter.inputs) > 1 else None)
    for at, array in enumerate(arrays):
        if array.input and count and array.input > count:
            key = "accepted.whole" if count > 1 else "accepted.whole.one"
            accepted = say("problems", key, {"low": 1, "high": count})
            found.contradiction(f"/arrays/{at}/input", array.input, "input", accepted, 1, input_count=count)


def of_panel(panel: PanelIn, pointer: str, found: Found) -> None:
    """Those of a panel that stands at ``pointer``."""
    for names in _COEFFICIENTS:
        given = [name for name in names if getattr(panel, name) is not None]
        for second in given[1:]:
            accepted = say("problems", "accepted.alone", {"beside": given[0]})
            found.contradiction(f"{pointer}/{second}", getattr(panel, second), "coefficient", accepted, NOTHING)
    if panel.power_tolerance_pct:
        least, most = panel.power_tolerance_pct
        _in_order(f"{pointer}/power_tolerance_pct/0", "power_tolerance_pct", least, most, found)


def _in_order(pointer: str, name: str, low: float, high: float, found: Found, why: str = "order") -> None:
    """The value of ``name`` at ``pointer`` lies at or below ``high``; the largest that is accepted is the example."""
    if low <= high:
        return
    facts = {"low": BOUNDS[name].low, "high": high, "of": say("problems", f"accepted.of.{name}")}
    found.contradiction(pointer, low, why, say("problems", "accepted.at_most", facts), high, other=high)


def of_inverter(inverter: InverterIn, where: str, found: Found) -> None:
    """Those of an inverter that stands at ``where``."""
    if inverter.set_limit_w is not None:
        _in_order(f"{where}/set_limit_w", "set_limit_w", inverter.set_limit_w, inverter.ac_power_w, found, why="limit")
    if inverter.inputs and inverter.input_count and len(inverter.inputs) not in {1, inverter.input_count}:
        facts = {"input_count": inverter.input_count}
        accepted = say("problems", "accepted.entries", facts)
        example = guide_of(AppraisalIn).example(("inverter", "inputs"))
        found.contradiction(f"{where}/inputs", len(inverter.inputs), "inputs", accepted, example, **facts)
    for at, one in enumerate(inverter.inputs or ()):
        if one.tracking_min_v is not None and one.tracking_max_v is not None:
            pointer = f"{where}/inputs/{at}/tracking_min_v"
            _in_order(pointer, "tracking_min_v", one.tracking_min_v, one.tracking_max_v, found)


def of_household(household: HouseholdIn, found: Found) -> None:
    """Those of the home: what it draws, what else it has, when somebody is there."""
    if household.demand:
        _demand(household.demand, found)
    other = household.other_generation
    if other and other.panel_power_w is None and other.year_kwh is None and other.values_w is None:
        accepted = say("problems", "accepted.size")
        example = guide_of(AppraisalIn).example(("household", "other_generation"))
        found.contradiction("/household/other_generation", {}, "no_size", accepted, example)
    if other and other.values_w is not None and other.year_kwh is not None:
        pointer, accepted = "/household/other_generation/year_kwh", say("problems", "accepted.not_here")
        found.contradiction(pointer, other.year_kwh, "other_twice", accepted, NOTHING)
    for day in ("weekday", "weekend"):
        pairs = getattr(household.at_home, day, None) or ()
        for at, (start, end) in enumerate(pairs):
            if start >= end:
                pair = [start, 24] if start < 24 else [0, min(24, end)]
                accepted = say("problems", "accepted.hours")
                found.contradiction(f"/household/at_home/{day}/{at}", [start, end], "hours", accepted, pair)


def _demand(demand: DemandIn, found: Found) -> None:
    values, log, pointer = demand.values_w, demand.log, "/household/demand"
    guide = guide_of(AppraisalIn)
    if (values is None) == (log is None):
        accepted, example = say("problems", "accepted.hours_or_log"), guide.example(("household", "demand"))
        found.contradiction(pointer, sorted(demand.model_fields_set), "hours_or_log", accepted, example)
    if values is not None and len(values) not in DEMAND_LENGTHS:
        found.mistakes.append(
            Mistake(
                code="wrong_count",
                pointer=f"{pointer}/values_w",
                given=str(len(values)),
                problem=say("problems", "mistake.wrong_count"),
                accepted=say("problems", "accepted.lengths", {"lengths": DEMAND_LENGTHS}),
                example=guide.example(("household", "demand", "values_w")),
            )
        )
    elif values is not None and len(values) < HOURS and demand.kind == "own_hours":
        accepted = say("problems", "accepted.profile")
        found.contradiction(f"{pointer}/kind", demand.kind, "profile", accepted, "averaged", count=len(values))
    if log is not None and HOUR_MINUTES % log.step_minutes:
        accepted = say("problems", "accepted.steps")
        found.contradiction(f"{pointer}/log/step_minutes", log.step_minutes, "steps", accepted, HOUR_MINUTES)
    if log is not None and demand.filled_share is not None:
        accepted = say("problems", "accepted.not_here")
        found.contradiction(f"{pointer}/filled_share", demand.filled_share, "filled_log", accepted, NOTHING)


def of_tariff(tariff: TariffIn, meter: MeterIn | None, found: Found) -> None:
    """Days named twice. Periods that name no day, and their order, are seen when the tariff is completed."""
    seen: list[str] = []
    for at, period in enumerate(tariff.periods):
        if period.valid_from is None:
            continue
        if period.valid_from in seen:
            last = date.fromisoformat(max(seen))
            example = (last + timedelta(days=1)).isoformat()
            accepted = say("problems", "accepted.own_day")
            found.contradiction(f"/tariff/periods/{at}/valid_from", period.valid_from, "same_day", accepted, example)
        seen.append(period.valid_from)
    inner = contradictions_of_tariff(tariff.given(), {"counts": meter.counts} if meter else None)
    found.mistakes += [mistake_of(error) for error in inner]


def _plain_tariff(tariff: TariffIn, inverter: InverterIn | None, found: Found) -> None:
    """What needs more than a year's sum of energy."""
    accepted = say("problems", "accepted.plain_tariff")
    for at, period in enumerate(tariff.periods):
        pointer = f"/tariff/periods/{at}"
        if period.rates:
            found.contradiction(f"{pointer}/rates", len(period.rates), "needs_hours", accepted, NOTHING)
        if period.hourly:
            found.contradiction(f"{pointer}/hourly", {}, "needs_hours", accepted, NOTHING)
        if period.fee_per_kva_year and inverter is None:
            given, wanted = period.fee_per_kva_year, say("problems", "accepted.kva")
            found.contradiction(f"{pointer}/fee_per_kva_year", given, "needs_inverter", wanted, NOTHING)


def _storage(storage: StorageIn, found: Found) -> None:
    accepted = say("problems", "accepted.not_here")
    if storage.coupling == "ac" and storage.max_input_current_a is not None:
        given = storage.max_input_current_a
        found.contradiction("/storage/max_input_current_a", given, "box_on_a_socket", accepted, NOTHING)
    if storage.meter_reader:
        for name in ("night_feed_w", "charge_above_w"):
            if (given := getattr(storage, name)) is not None:
                found.contradiction(f"/storage/{name}", given, "follows_the_meter", accepted, NOTHING)
    feed, most = storage.night_feed_w, storage.discharge_limit_w
    if not storage.meter_reader and feed is not None and most is not None:
        _in_order("/storage/night_feed_w", "night_feed_w", feed, most, found)
