"""Which parts of a request cannot both hold? Each value by itself is in bounds already."""

from service.api.schemas.array import ArrayIn
from service.api.schemas.base import In
from service.api.schemas.household import DEMAND_LENGTHS, DemandIn, HouseholdIn, MeterIn
from service.api.schemas.inverter import InverterIn
from service.api.schemas.mistakes import Found, Mistake, mistake_of
from service.api.schemas.money import TariffIn
from service.api.schemas.requests import AppraisalIn, PaybackIn
from service.api.schemas.storage import StorageIn
from service.api.words import say
from service.core.completion import contradictions_of_tariff
from service.core.model.hours import HOURS

HOUR_MINUTES = 60


def contradictions(request: In) -> list[Mistake]:
    """All contradictions of a request, in its own order."""
    found = Found()
    if isinstance(request, PaybackIn):
        _payback(request, found)
    if isinstance(request, AppraisalIn | PaybackIn):
        if request.arrays and request.inverter:
            _arrays(request.arrays, request.inverter, found)
        if request.inverter:
            _inverter(request.inverter, found)
        if request.household:
            _household(request.household, found)
        if request.tariff:
            _tariff(request.tariff, request.meter, found)
        if request.storage:
            _storage(request.storage, found)
    return found.mistakes


def _payback(request: PaybackIn, found: Found) -> None:
    plain = request.energy is not None or request.use is not None
    needed = ("energy", "use", "tariff") if plain else ("site", "arrays", "inverter")
    for name in needed:
        if getattr(request, name) is None:
            found.mistakes.append(
                Mistake(code="missing", pointer=f"/{name}", problem=say("problems", "mistake.missing.payback"))
            )
    if plain and request.arrays is not None:
        given = [array.given() for array in request.arrays]
        found.contradiction("/arrays", given, "payback")
    if plain and request.storage is not None:
        accepted = say("problems", "accepted.nothing")
        found.contradiction("/storage", request.storage.given(), "storage_needs_hours", accepted)
    if plain and request.tariff is not None:
        _plain_tariff(request.tariff, request.inverter, found)


def _arrays(arrays: list[ArrayIn], inverter: InverterIn, found: Found) -> None:
    count = inverter.input_count or (len(inverter.inputs) if inverter.inputs and len(inverter.inputs) > 1 else None)
    for at, array in enumerate(arrays):
        if array.input and count and array.input > count:
            accepted = say(
                "problems", "accepted.whole" if count > 1 else "accepted.whole.one", {"low": 1, "high": count}
            )
            found.contradiction(f"/arrays/{at}/input", array.input, "input", accepted, input_count=count)
        panel = array.panel
        for first, second in (
            ("voc_coefficient_pct_per_k", "voc_coefficient_v_per_k"),
            ("isc_coefficient_pct_per_k", "isc_coefficient_a_per_k"),
        ):
            if getattr(panel, first) is not None and getattr(panel, second) is not None:
                found.contradiction(f"/arrays/{at}/panel/{second}", getattr(panel, second), "coefficient")
        if panel.power_tolerance_pct and panel.power_tolerance_pct[0] > panel.power_tolerance_pct[1]:
            pointer = f"/arrays/{at}/panel/power_tolerance_pct/0"
            found.contradiction(pointer, panel.power_tolerance_pct[0], "order", other=panel.power_tolerance_pct[1])


def _inverter(inverter: InverterIn, found: Found) -> None:
    if inverter.set_limit_w is not None and inverter.set_limit_w > inverter.ac_power_w:
        found.contradiction("/inverter/set_limit_w", inverter.set_limit_w, "limit")
    if inverter.inputs and inverter.input_count and len(inverter.inputs) not in {1, inverter.input_count}:
        found.contradiction("/inverter/inputs", len(inverter.inputs), "inputs", input_count=inverter.input_count)
    for at, one in enumerate(inverter.inputs or ()):
        low, high = one.tracking_min_v, one.tracking_max_v
        if low is not None and high is not None and low > high:
            pointer = f"/inverter/inputs/{at}/tracking_min_v"
            found.contradiction(pointer, low, "order", other="tracking_max_v")


def _household(household: HouseholdIn, found: Found) -> None:
    if household.demand:
        _demand(household.demand, found)
    other = household.other_generation
    if other and other.panel_power_w is None and other.year_kwh is None and other.values_w is None:
        found.contradiction("/household/other_generation", {}, "no_size")
    if other and other.values_w is not None and other.year_kwh is not None:
        found.contradiction("/household/other_generation/year_kwh", other.year_kwh, "other_twice")
    for day in ("weekday", "weekend"):
        pairs = getattr(household.at_home, day, None) or ()
        for at, (start, end) in enumerate(pairs):
            if start >= end:
                found.contradiction(f"/household/at_home/{day}/{at}", [start, end], "hours")


def _demand(demand: DemandIn, found: Found) -> None:
    values, log = demand.values_w, demand.log
    if (values is None) == (log is None):
        found.contradiction("/household/demand", sorted(demand.model_fields_set), "hours_or_log")
    if values is not None and len(values) not in DEMAND_LENGTHS:
        found.mistakes.append(
            Mistake(
                code="wrong_count",
                pointer="/household/demand/values_w",
                given=str(len(values)),
                problem=say("problems", "mistake.wrong_count"),
                accepted=say("problems", "accepted.lengths", {"lengths": DEMAND_LENGTHS}),
            )
        )
    elif values is not None and len(values) < HOURS and demand.kind == "own_hours":
        found.contradiction("/household/demand/kind", demand.kind, "profile", count=len(values))
    if log is not None and HOUR_MINUTES % log.step_minutes:
        found.contradiction("/household/demand/log/step_minutes", log.step_minutes, "steps")
    if log is not None and demand.filled_share is not None:
        found.contradiction("/household/demand/filled_share", demand.filled_share, "filled_log")


def _tariff(tariff: TariffIn, meter: MeterIn | None, found: Found) -> None:
    seen: set[str | None] = set()
    for at, period in enumerate(tariff.periods):
        if period.valid_from in seen:
            found.contradiction(f"/tariff/periods/{at}/valid_from", period.valid_from or "", "same_day")
        seen.add(period.valid_from)
    inner = contradictions_of_tariff(tariff.given(), meter.given() if meter else None)
    found.mistakes += [mistake_of(error) for error in inner]


def _plain_tariff(tariff: TariffIn, inverter: InverterIn | None, found: Found) -> None:
    """What needs more than a year's sum of energy."""
    accepted = say("problems", "accepted.plain_tariff")
    for at, period in enumerate(tariff.periods):
        pointer = f"/tariff/periods/{at}"
        if period.rates:
            found.contradiction(f"{pointer}/rates", len(period.rates), "needs_hours", accepted)
        if period.hourly:
            found.contradiction(f"{pointer}/hourly", {}, "needs_hours", accepted)
        if period.fee_per_kva_year and inverter is None:
            given, wanted = period.fee_per_kva_year, say("problems", "accepted.kva")
            found.contradiction(f"{pointer}/fee_per_kva_year", given, "needs_inverter", wanted)


def _storage(storage: StorageIn, found: Found) -> None:
    if storage.coupling == "ac" and storage.max_input_current_a is not None:
        accepted = say("problems", "accepted.nothing")
        found.contradiction("/storage/max_input_current_a", storage.max_input_current_a, "box_on_a_socket", accepted)
    if storage.meter_reader:
        for name in ("night_feed_w", "charge_above_w"):
            if (given := getattr(storage, name)) is not None:
                accepted = say("problems", "accepted.nothing")
                found.contradiction(f"/storage/{name}", given, "follows_the_meter", accepted)
    feed, most = storage.night_feed_w, storage.discharge_limit_w
    if not storage.meter_reader and feed is not None and most is not None and feed > most:
        accepted = say("problems", "accepted.number", {"low": 0, "high": most})
        found.contradiction("/storage/night_feed_w", feed, "order", accepted, other="discharge_limit_w")
