"""Which parts of a request cannot both hold? Each value by itself is in bounds already."""

from service.api.schemas.array import ArrayIn
from service.api.schemas.base import In
from service.api.schemas.household import DEMAND_LENGTHS, HouseholdIn
from service.api.schemas.inverter import InverterIn
from service.api.schemas.mistakes import Found, Mistake
from service.api.schemas.money import TariffIn
from service.api.schemas.panel_identity import PanelIdentityIn
from service.api.schemas.requests import AppraisalIn, PaybackIn
from service.api.words import say


def contradictions(request: In) -> list[Mistake]:
    """All contradictions of a request, in its own order."""
    found = Found()
    if isinstance(request, PanelIdentityIn):
        _identity(request, found)
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
            _tariff(request.tariff, found)
    return found.mistakes


def _identity(request: PanelIdentityIn, found: Found) -> None:
    if request.rated_power_w is None and request.model_code is None and request.label_text is None:
        problem = say("problems", "mistake.missing.identity")
        found.mistakes.append(Mistake(code="missing", pointer="/rated_power_w", problem=problem))


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
    if household.demand and len(household.demand.values_w) not in DEMAND_LENGTHS:
        accepted = say("problems", "accepted.lengths", {"lengths": DEMAND_LENGTHS})
        found.mistakes.append(
            Mistake(
                code="wrong_count",
                pointer="/household/demand/values_w",
                given=str(len(household.demand.values_w)),
                problem=say("problems", "mistake.wrong_count"),
                accepted=accepted,
            )
        )
    for day in ("weekday", "weekend"):
        pairs = getattr(household.at_home, day, None) or ()
        for at, (start, end) in enumerate(pairs):
            if start >= end:
                found.contradiction(f"/household/at_home/{day}/{at}", [start, end], "hours")


def _tariff(tariff: TariffIn, found: Found) -> None:
    seen: set[str | None] = set()
    for at, period in enumerate(tariff.periods):
        if period.valid_from in seen:
            found.contradiction(f"/tariff/periods/{at}/valid_from", period.valid_from or "", "same_day")
        seen.add(period.valid_from)
