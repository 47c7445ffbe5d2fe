"""What is the complete account, where a caller brings a yield of its own and asks about the money alone?"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from math import hypot
from typing import Any

from service.core.completion.fill_home import NO_COUNTRY, account_ends, money_of, rule_area_of
from service.core.completion.fill_outlay import outlay_of
from service.core.completion.fill_tariff import meter_of, tariff_of
from service.core.completion.node import Guess, Node
from service.core.completion.tables import DefaultTables
from service.core.errors import ContradictionError
from service.core.household import SD_PUBLIC_SHAPE
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.band import Z_90, Band
from service.core.model.facts import Meter, Money, Outlay, Tariff
from service.core.payback import priced_periods

# Relative standard deviation of a yearly energy that comes as a bare number: climate data, years, model, rating and the
# lesser losses of a set that is wholly described make 0.06 in our own account of it, its plane some 0.03 to 0.05 more.
# A bare share of use at home is taken to be as unsure as one that is found from a yearly figure.
BARE_YIELD_SD = 0.08
BARE_SHARE_SD = SD_PUBLIC_SHAPE
_Z_95 = 1.96

# What changes how much is used at home or sent out: in the yield and share that were brought, and not reckoned again.
_IN_THE_SHARE = (
    ("inverter", "export_limit_w"), ("meter", "sums_phases"), ("household", "demand"),
    ("household", "other_generation"),
)  # fmt: skip
_EXAMPLE_DEMAND_KWH = 2500


@dataclass(frozen=True, slots=True, kw_only=True)
class CompletedAccount:
    """Tariff, meter, outlay and conventions, complete, and what in them was assumed.

    ``year_kwh``: band of the yield; ``self_used_kwh``: of what is used of it, yield and habits together. None where the
    request has no yield or no share, and the second where the share is one: all of the yield then counts, and its band
    is that of the use. What may not be sent out is no yield: a limit of nought leaves what is used, all of it.

    ``demand_kwh``: what the home needs; ``plant_kwh``: what a plant on the roof gives and what of that is used in the
    moment. None where nobody said.

    ``rule_area``: whose rules and prices were taken; None where no place is known.
    """

    rule_area: str | None
    tariff: Tariff | None
    meter: Meter
    outlay: Outlay | None
    money: Money
    assumptions: Assumptions
    year_kwh: Band | None
    self_used_share: float
    self_used_kwh: Band | None
    demand_kwh: float | None
    plant_kwh: tuple[float, float] | None


def complete_account(
    given: Mapping[str, Any], tables: DefaultTables, as_of: date, country: str | None = None
) -> CompletedAccount:
    """Fill tariff, meter and money from the one table of defaults, and say what else was sent and is not looked at.

    Args:
        given: the request as sent; ``tariff``, ``meter``, ``outlay``, ``money``, ``site.rule_area``, ``energy`` and
            ``use`` are read.
        tables: dated tables that defaults draw on.
        as_of: the day of the question.
        country: ISO 3166 code of the country at the site's coordinates; None without a site, and at sea.

    Raises:
        ContradictionError: parts of the request exclude each other.
    """
    log: list[Assumption] = []
    root = Node(given, "", log)
    site = root.child_if_given("site")
    area = NO_COUNTRY if site is None else rule_area_of(site, country)
    year_kwh = _year_kwh(root.child("energy"))
    tariff = tariff_of(root.child("tariff"), root.child("meter"), area, tables, as_of)
    # a meter that counts each phase alone sees the set send out what the home draws on the other ones
    phases_alone = root.child("meter").get("sums_phases") is False
    sends_out = phases_alone or root.child("inverter").get("export_limit_w") != 0.0
    plant_kwh = _plant_kwh(root.child("use"))
    unseen = not sends_out and plant_kwh is None  # what never leaves no register sees; a plant's surplus leaves
    if tariff is not None and unseen:
        tariff = _of_no_surplus(tariff)
    money = money_of(root.child("money"))
    account_ends(root.child("household"), money)
    nets = tariff is not None and any(period.export == "netted" for period in tariff.periods)
    _refuse_months(root.child("meter"), nets)
    use, household = root.child("use"), root.child("household")
    share, used_kwh = use.get("self_used_share") or 0.0, None if year_kwh is None else _self_used_kwh(use, year_kwh)
    if year_kwh is not None and used_kwh is not None and (share == 1.0 or not sends_out):
        year_kwh, share, used_kwh = used_kwh, 1.0, None
    demand_kwh = household.get("demand_kwh_per_year") or use.get("demand_kwh")
    if nets:
        _refuse_unknown_plant(household, use, demand_kwh)
    _say_what_is_not_reckoned(root, tariff, money, as_of, sends_out=sends_out)
    meter = meter_of(root.child("meter"), tariff)
    return CompletedAccount(
        rule_area=None if area == NO_COUNTRY else area,
        tariff=tariff,
        meter=replace(meter, counts="two_way") if unseen else meter,
        outlay=outlay_of(root.child("outlay")),
        money=money,
        year_kwh=year_kwh,
        self_used_share=share,
        self_used_kwh=used_kwh,
        demand_kwh=demand_kwh,
        plant_kwh=plant_kwh,
        assumptions=Assumptions.of(log),
    )


def _of_no_surplus(tariff: Tariff) -> Tariff:
    """The tariff of a set that sends nothing out: whatever a kWh sent out would earn, there is none."""
    return replace(tariff, periods=tuple(replace(period, export="unpaid") for period in tariff.periods))


def _plant_kwh(use: Node) -> tuple[float, float] | None:
    plant = use.child_if_given("other_generation")
    return None if plant is None else (plant.get("year_kwh"), plant.get("self_used_kwh"))


def _refuse_unknown_plant(household: Node, use: Node, demand_kwh: float | None) -> None:
    """The surplus of a plant on the roof nets first: of how much, and against which need, has to be known."""
    if use.child_if_given("other_generation") is None:
        if household.get("other_generation") is None:
            return
        raise ContradictionError(
            use.at("other_generation"), "is missing: the surplus of the plant on the roof is netted before the set's",
            accepted="year_kwh and self_used_kwh of the plant, as an appraisal tells them under use.other_generation",
            example={"year_kwh": 2900.0, "self_used_kwh": 800.0},
        )  # fmt: skip
    if demand_kwh is None:
        raise ContradictionError(
            household.at("demand_kwh_per_year"), "is missing: the plant on the roof and the set net against it",
            accepted="what the home needs in a year, in kWh", example=_EXAMPLE_DEMAND_KWH,
        )  # fmt: skip


def _refuse_months(meter: Node, nets: bool) -> None:
    """Netted by the month a sum of a year has no answer: what summer sends out would be netted in winter."""
    if nets and meter.get("netting") == "month":
        raise ContradictionError(
            meter.at("netting"), "needs the months of the home, and the energy is known as one sum", given="month",
            accepted="year, if that is how it is netted; or site, arrays and inverter in place of energy and use",
            example="year",
        )  # fmt: skip


def _say_what_is_not_reckoned(root: Node, tariff: Tariff | None, money: Money, as_of: date, *, sends_out: bool) -> None:
    """A sum of energy has no months for prices that change within a year, and a share no home to be reckoned from."""
    if tariff is not None and any(
        one.share_of_month is not None for one in priced_periods(tariff, as_of, money.years, 0.0)
    ):
        root.assume("energy", Guess(value=None, code="shared_by_days"))
    for part, name in _IN_THE_SHARE:
        node = root.child(part)
        if (value := node.get(name)) is not None:
            code = "in_the_share_already" if sends_out or name != "export_limit_w" else "nothing_sent_out"
            node.assume(name, Guess(value=None if isinstance(value, Mapping) else value, code=code))


def _year_kwh(node: Node) -> Band | None:
    """The yield as given; a bare number gets a band, which is written down."""
    given = node.get("year_kwh")
    if given is None or isinstance(given, Mapping):
        return None if given is None else Band(given["cautious"], given["middle"], given["hopeful"])
    _bare(node, "year_kwh", given, BARE_YIELD_SD)
    return Band((1.0 - Z_90 * BARE_YIELD_SD) * given, given, (1.0 + Z_90 * BARE_YIELD_SD) * given)


def _self_used_kwh(node: Node, year_kwh: Band) -> Band | None:
    """What is used at home as given; a bare share gets a band from the yield's and its own, which is written down."""
    share, given = node.get("self_used_share"), node.get("self_used_kwh")
    if share is None or given is not None:
        return None if given is None else Band(given["cautious"], given["middle"], given["hopeful"])
    if share == 1.0:  # no estimate of a home: whoever says so has all of the energy counted
        return None
    _bare(node, "self_used_share", share, BARE_SHARE_SD, most=1.0)
    middle = year_kwh.middle or 0.0
    used, step = middle * share, Z_90 * BARE_SHARE_SD
    ends = (year_kwh.cautious, year_kwh.hopeful)
    down, up = (0.0 if end is None or not middle else abs(end / middle - 1.0) for end in ends)
    return Band(used * max(1.0 - hypot(down, step), 0.0), used, used * (1.0 + hypot(up, step)))


def _bare(node: Node, name: str, given: float, sd_share: float, *, most: float = float("inf")) -> None:
    low, high = ((1.0 + sign * _Z_95 * sd_share) * given for sign in (-1.0, 1.0))
    node.assume(name, Guess(value=given, code="bare_number", low=round(low, 4), high=round(min(high, most), 4)))
