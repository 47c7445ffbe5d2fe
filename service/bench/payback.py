"""What does one payback cost in the core? CPU of the process, as ratios within one run.

The workload: one appraisal's request (the file that is given), completed once. Then, again and again: its use at home
from a year of hours, its account (bands, bids, rates of return, and eight accounts more for the sensitivity), the
account of a plain yield, the account of a tariff of three periods with rates, and a battery of 1 kWh by quarter-hours:
before the inverter with a meter reader, there beside the three periods, and one that reads nothing, its fixed powers
chosen. The measure beside them is
one ``numpy.minimum`` of production and demand over the year, the flattering self-use that the closed form replaces.
"""

import argparse
import json
from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from time import process_time

import numpy as np

from service.api.answers.question import Question
from service.api.schemas.requests import AppraisalIn
from service.app import deps_of
from service.core.model.facts import Rate, Tariff, TariffPeriod
from service.core.model.storage import Storage
from service.core.worth import chosen_feed, storage_beside, use_at_home, worth, worth_of_energy
from service.settings import Settings

REPEATS = 20
ROUNDS = 25
BATTERY = Storage(
    usable_kwh=1.0,
    coupling="dc",
    charge_limit_w=500.0,
    discharge_limit_w=500.0,
    max_input_current_a=None,
    round_trip_share=0.9,
    standby_w=5.0,
    meter_reader=True,
    night_feed_w=None,
    charge_above_w=None,
    ageing_share_per_year=0.025,
    amount=300.0,
)


_NIGHT = Rate(
    name="night", months=None, days=None, from_clock="22:00", to_clock="06:00", import_price_per_kwh=0.2,
    export_price_per_kwh=None,
)  # fmt: skip
_WEEKEND = replace(_NIGHT, name="weekend", days="weekend", from_clock=None, to_clock=None, import_price_per_kwh=0.22)
PERIODS = Tariff(
    currency="EUR",
    periods=tuple(
        TariffPeriod(
            valid_from=day, import_price_per_kwh=price, export=export, export_price_per_kwh=0.08,
            rates=(_NIGHT, _WEEKEND),
        )
        for day, price, export in (
            ("2026-04-01", 0.3, "netted"), ("2028-04-01", 0.31, "paid"), ("2031-04-01", 0.32, "paid"),
        )
    ),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class PaybackCost:
    """CPU milliseconds of one call, the least of several rounds: what others do on the machine only adds."""

    account_ms: float
    plain_account_ms: float
    use_at_home_ms: float
    several_periods_ms: float
    storage_ms: float
    storage_several_periods_ms: float
    storage_blind_ms: float
    hourly_minimum_ms: float

    @property
    def account_to_minimum(self) -> float:
        """How many hourly minima of a year the account costs."""
        return self.account_ms / self.hourly_minimum_ms

    @property
    def use_to_account(self) -> float:
        """How many accounts the use at home costs."""
        return self.use_at_home_ms / self.account_ms


def main(arguments: Sequence[str]) -> int:
    """``bench payback [FILE] [--json]``: FILE is one appraisal's request, the Kranichwerft home by default."""
    parser = argparse.ArgumentParser(prog="python -m service bench payback")
    parser.add_argument("file", nargs="?", type=Path, default=Path("examples/kranichwerft.json"))
    parser.add_argument("--json", action="store_true", help="print the figures as JSON")
    chosen = parser.parse_args(arguments)
    cost = payback_cost(chosen.file)
    ratios = {"account_to_minimum": cost.account_to_minimum, "use_to_account": cost.use_to_account}
    print(json.dumps({**asdict(cost), **ratios}) if chosen.json else report(cost))
    return 0


def payback_cost(request_file: Path, repeats: int = REPEATS, rounds: int = ROUNDS) -> PaybackCost:
    """Complete the request, then time the rooms of money.

    Args:
        request_file: JSON of one appraisal with a tariff.
        repeats: calls in a round, over which the clock runs.
        rounds: how many rounds the least is taken of.
    """
    deps = deps_of(Settings())
    question = Question.asked(AppraisalIn, request_file.read_bytes(), deps)
    setup, energy, calendar = question.setup, question.energy, question.sky.calendar
    use = use_at_home(energy, setup, calendar, deps.demand_shape)
    demand = question.demand_of(setup)
    tariff = setup.tariff
    if tariff is None:
        message = "the request has no tariff, and none is known for its place"
        raise ValueError(message)

    account = worth(energy, use, setup, question.as_of)
    with_battery = replace(setup, storage=BATTERY)
    by_rates = replace(with_battery, tariff=PERIODS)
    use_by_rates = use_at_home(energy, by_rates, calendar, deps.demand_shape)
    blind = replace(setup, storage=replace(BATTERY, meter_reader=False, night_feed_w=60.0, charge_above_w=60.0))

    def without_reader() -> object:
        chosen = chosen_feed(use, blind)
        return storage_beside(energy, blind, use, account, question.as_of, chosen=chosen)

    def timed(call: Callable[[], object]) -> float:
        call()
        return 1000.0 * min(_seconds(call, repeats) for _ in range(rounds))

    return PaybackCost(
        account_ms=timed(lambda: worth(energy, use, setup, question.as_of)),
        plain_account_ms=timed(
            lambda: worth_of_energy(
                energy.year_kwh, use.self_used_share, tariff, setup.outlay, setup.money, question.as_of
            )
        ),
        use_at_home_ms=timed(lambda: use_at_home(energy, setup, calendar, deps.demand_shape)),
        several_periods_ms=timed(lambda: worth(energy, use_by_rates, by_rates, question.as_of)),
        storage_several_periods_ms=timed(
            lambda: storage_beside(energy, by_rates, use_by_rates, account, question.as_of)
        ),
        storage_blind_ms=timed(without_reader),
        storage_ms=timed(lambda: storage_beside(energy, with_battery, use, account, question.as_of)),
        hourly_minimum_ms=timed(lambda: np.minimum(energy.ac_w, demand)),
    )


def _seconds(call: Callable[[], object], repeats: int) -> float:
    started = process_time()
    for _ in range(repeats):
        call()
    return (process_time() - started) / repeats


def report(cost: PaybackCost) -> str:
    """The figures as a small table, ratios first."""
    return "\n".join(
        (
            f"account / hourly minimum, CPU {cost.account_to_minimum:8.0f} x",
            f"use at home / account, CPU    {cost.use_to_account:8.1f} x",
            f"account                       {cost.account_ms:8.2f} ms",
            f"account of a plain yield      {cost.plain_account_ms:8.2f} ms",
            f"use at home, a year of hours  {cost.use_at_home_ms:8.2f} ms",
            f"three periods with rates      {cost.several_periods_ms:8.2f} ms",
            f"battery, d.c., meter reader   {cost.storage_ms:8.2f} ms",
            f"  beside the three periods    {cost.storage_several_periods_ms:8.2f} ms",
            f"battery without a reader      {cost.storage_blind_ms:8.2f} ms",
            f"hourly minimum of a year      {cost.hourly_minimum_ms:8.4f} ms",
        )
    )
