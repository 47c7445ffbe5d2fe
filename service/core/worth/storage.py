"""What does a small battery change beside the set, and does it ever pay? Without and with it, side by side.

The set's own account stays without the battery; here is what the battery adds, against its own price and ageing.

How right it is (``tests/reference/test_storage_on_minutes.py``): what a box gives that follows the meter, beside 400 to
1600 W of panels in a home of 1500 to 9800 kWh a year, against its minutes. From the home's own hours the bias is +3 %
under even light and -6 % under a sun that comes and goes within minutes, from a profile by month and hour +4 and -6 %,
from a mean day +12 and 0 %; single cases scatter by 7 to 11 % about that. Stepping the expected level alone would
flatter by 17 % from such a profile and 31 % from a mean day, which the spells of ``household.storage`` take back.

What is not modelled stands in ``worth.box`` and ``household.stored_year``.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from typing import TypeVar

import numpy as np

from service.core.energy.result import EnergyYear
from service.core.household import spell_swing
from service.core.model.band import Z_90, Band
from service.core.model.facts import Household, Setup, Tariff
from service.core.model.hours import Floats
from service.core.model.storage import Storage
from service.core.payback import (
    cash_flows,
    discounted_payback_years,
    drawn_cost,
    needed_cost,
    net_present_value,
    parts_kept,
    priced_periods,
    savings_by_price,
    scaled,
    sound_share,
    stacked,
    time_kept,
    worth_up_to,
)
from service.core.worth.bands import SavingCases, beside_at_least, price_sd_share
from service.core.worth.box import BoxYear, StoreYear
from service.core.worth.feed import ChosenFeed, FeedSetting, chosen_feed, left_off
from service.core.worth.result import Worth
from service.core.worth.storage_runs import Runs
from service.core.worth.use import UseAtHome

_T = TypeVar("_T", float, Floats)

# Relative standard deviation of what the battery gains, beside that of the production: the scatter about the minutes
# of the one home (module docstring), and for the public shape, which is some other home's, our own choice.
SD_OWN_HOURS = 0.08
SD_AVERAGED = 0.11
SD_PUBLIC_SHAPE = 0.15

# Less than this is no change of what is used at home.
_ROUNDING_KWH = 0.005
# Less than half a hundredth is nothing in any currency: what brings no more pays at no price, nor as a gift.
_LEAST_MONEY = 0.005


@dataclass(frozen=True, slots=True, kw_only=True)
class UseBeside:
    """One side: the first year's use at home with its band, and the saving; None where no price is known."""

    self_used_kwh: Band
    self_used_share: float
    exported_kwh: float
    covered_share: float
    saving_first_year: Band | None


@dataclass(frozen=True, slots=True, kw_only=True)
class StoragePays:
    """What the battery brings in money, its own standby paid.

    ``outlay_to_pay``: the most that may be paid for it so that it pays within ``years_kept``, its ageing counted.
    Against its ``amount``, None where none was given: the discounted payback (a member is None where there is none
    within the years), what is left over, and whether the middle case pays; what brings nothing never pays.
    """

    years_kept: float
    gain_first_year: Band
    outlay_to_pay: Band
    amount: float | None
    payback_years: Band | None
    net_present_value: Band | None
    pays: bool | None


@dataclass(frozen=True, slots=True, kw_only=True)
class StorageBeside:
    """The set without the battery and with it, and whether that pays; ``money`` is None where no price is known.

    ``inputs_lost_kwh``: what the panels give less through the inputs of the box (a.c.); negative where they give more.
    ``tried``: settings of a box that reads no meter, most use at home first. Where one of its powers was open the first
    is the one reckoned with; where the caller fixed both and less is used at home with them, what else was tried.
    """

    without: UseBeside
    with_it: UseBeside
    more_self_used_kwh: Band
    inputs_lost_kwh: float
    year: StoreYear
    money: StoragePays | None
    tried: tuple[FeedSetting, ...] = ()


def storage_beside(
    energy: EnergyYear,
    setup: Setup,
    use: UseAtHome,
    account: Worth | None,
    as_of: date,
    *,
    box_dc_w: Floats | None = None,
    chosen: ChosenFeed | None = None,
    price_unknown_sd_share: float = 0.0,
) -> StorageBeside | None:
    """The set with its battery beside the set alone; None where nobody asked about one.

    Args:
        energy: the year without the battery.
        setup: with ``storage``.
        use: use at home without the battery.
        account: the account without the battery; None where no price is known.
        as_of: the day of asking.
        box_dc_w: (8760,) what the panels give through the inputs of the box, where these have limits of their own.
        chosen: the setting of a box that reads nothing, where the caller left it open (``worth.feed``); None: the
            powers of ``setup.storage`` are the caller's.
        price_unknown_sd_share: relative standard deviation of today's import price, where nobody said it.

    Self-use never falls with a box that follows the meter, but for input limits that are narrower than the inverter's,
    nor with one whose fixed powers were chosen here. With powers of the caller's it may: the box takes by day what may
    have been wanted then, and gives by night what nobody wants.
    """
    if setup.storage is None:
        return None
    storage = setup.storage if chosen is None else chosen.storage
    box_setup = replace(setup, storage=storage)
    kept = time_kept(setup.money.years, setup.household.stay_years)
    ran = Runs.of(use, box_setup, _running(storage), energy.light_ends(), kept, box_dc_w, chosen)
    with_kwh, more_kwh = ran.self_used(use, _sd_share(setup.household))
    used = with_kwh.middle or 0.0
    exported = float(ran.middle.home.exported_kwh.sum())
    saved = None if setup.tariff is None else _Saved.of(ran, use, setup, setup.tariff, as_of, price_unknown_sd_share)
    return StorageBeside(
        without=_without_box(use, account),
        with_it=UseBeside(
            self_used_kwh=with_kwh,
            self_used_share=_share(used, used + exported),
            exported_kwh=exported,
            covered_share=_share(used, use.demand_kwh),
            saving_first_year=None if saved is None else saved.whole_first_year(account),
        ),
        more_self_used_kwh=more_kwh,
        inputs_lost_kwh=ran.inputs_lost_kwh,
        year=_year(ran.middle, storage),
        money=None if saved is None else saved.pays(setup, kept),
        tried=_tried(use, box_setup, chosen, more_kwh.middle or 0.0, box_dc_w),
    )


def _without_box(use: UseAtHome, account: Worth | None) -> UseBeside:
    return UseBeside(
        self_used_kwh=use.self_used_kwh,
        self_used_share=use.self_used_share,
        exported_kwh=use.exported_kwh,
        covered_share=use.covered_share,
        saving_first_year=None if account is None else account.saving_first_year,
    )


def _running(storage: Storage) -> Storage:
    """The box as it runs: one that is left off is none, and stands in nobody's way."""
    return replace(storage, usable_kwh=0.0, coupling="ac") if left_off(storage) else storage


def _year(middle: BoxYear, storage: Storage) -> StoreYear:
    year = middle.year(_running(storage))
    return replace(year, over_charge_limit_kwh=0.0) if left_off(storage) else year


def _tried(
    use: UseAtHome, setup: Setup, chosen: ChosenFeed | None, gain_kwh: float, box_dc_w: Floats | None
) -> tuple[FeedSetting, ...]:
    reads = setup.storage is None or setup.storage.meter_reader
    if chosen is None and not reads and gain_kwh < -_ROUNDING_KWH:
        chosen = chosen_feed(use, setup, box_dc_w=box_dc_w)
    return () if chosen is None else chosen.tried


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Saved:
    """Savings of each year: what the battery gains, and the whole of set and battery.

    ``today_sd_share`` and ``price_sd_share``: how far the price of today and of the years to come may be off.
    """

    gain: SavingCases
    whole: SavingCases
    shrunk: Callable[[float], tuple[float, float]]
    today_sd_share: float
    price_sd_share: float

    @classmethod
    def of(
        cls,
        ran: Runs,
        use: UseAtHome,
        setup: Setup,
        tariff: Tariff,
        as_of: date,
        price_unknown_sd_share: float,
    ) -> "_Saved":
        """Capacity falls by the same share each year, and the gain with it: a straight line between new and oldest."""
        money, meter = setup.money, setup.meter
        periods = priced_periods(tariff, as_of, money.years, money.price_growth_share)
        sound = 1.0 if setup.outlay is None else sound_share(setup.outlay.faulty_share or 0.0)

        years = (ran.middle, ran.new, ran.old, ran.less, ran.more, ran.fewer, ran.further)
        cases = (
            use.cases.middle, use.cases.less_energy, use.cases.more_energy, use.cases.less_used, use.cases.more_used,
        )  # fmt: skip
        homes = stacked([scaled(home, sound) for home in (*cases, ran.most(), ran.idle, *(one.home for one in years))])
        bought, sold = savings_by_price(homes, periods, money.ageing_share_per_year, meter.counts, meter.netting)
        alone, with_box = (bought + sold)[: len(cases)], (bought + sold)[len(cases) + 2 :]
        beside = with_box - drawn_cost(stacked([one.standby for one in years]), periods)
        middle = beside[0] + ran.aged_share(money.years) * (beside[2] - beside[1])
        ends = middle + beside[3:] - beside[1]
        gain, gained = middle - alone[0], ends - alone[1:]
        idle = (bought + sold)[len(cases) + 1]
        step = Z_90 * _sd_share(setup.household) * np.abs(middle - idle)
        night = 0.0 if use.cases.night is None else drawn_cost(use.cases.night, periods)
        # a box that follows the meter costs at most its standby, or what it makes of what would have earned something
        cost = with_box[0] - beside[0]
        least = np.min([gain, idle - alone[0] - cost, beside[1] - alone[0], *(beside[3:] - alone[1:])], axis=0)
        # all that reaches the home used there, or as much sent out as is; the home's bill holds no more to be saved
        most = np.minimum(bought[len(cases)], needed_cost(use.cases.middle, periods)) + sold[len(cases)]
        most = np.maximum(most, beside[4]) + np.maximum(beside[6] - beside[1], 0.0) * ran.limited
        return cls(
            gain=SavingCases(
                middle=gain,
                by_energy=(gained[0], gained[1]),
                by_use=(gained[2], gained[3]),
                others=((gain - step, gain + step),),
                most=most - alone.min(axis=0),
                least=least if ran.follows else None,
            ),
            whole=SavingCases(
                middle=middle - night,
                by_energy=(ends[0] - night, ends[1] - night),
                by_use=(ends[2] - night, ends[3] - night),
                others=((middle - step - night, middle + step - night),),
                most=most - night,
            ),
            shrunk=use.cases.shrunk,
            today_sd_share=price_unknown_sd_share,
            price_sd_share=price_sd_share(price_unknown_sd_share),
        )

    def whole_first_year(self, account: Worth | None) -> Band:
        """Set and battery together; at no end is more lost beside the set alone than the battery may lose."""
        whole = self.first_year(self.whole)
        if account is None or self.gain.least is None:
            return whole
        return beside_at_least(whole, account.saving_first_year, float(self.gain.least[0]))

    def first_year(self, cases: SavingCases) -> Band:
        """The first year at today's price."""
        low, high = cases.ends(self.shrunk(1.0), self.today_sd_share)
        return Band(float(low[0]), float(cases.middle[0]), float(high[0]))

    def pays(self, setup: Setup, kept: float) -> StoragePays:
        """The battery against its own price, over the years kept."""
        rate, amount = setup.money.discount_rate_share, setup.storage.amount if setup.storage else None
        low, high = self.gain.ends(self.shrunk(max(kept, 1.0)), self.price_sd_share)
        parts = parts_kept(kept)
        ends = [gains[: parts.size] * parts for gains in (low, self.gain.middle, high)]
        nothing, last_part = np.zeros(parts.size), float(parts[-1]) if parts.size else 1.0
        money = StoragePays(
            years_kept=kept,
            gain_first_year=self.first_year(self.gain),
            outlay_to_pay=Band(*(worth_up_to(gains, nothing, rate) for gains in ends)),
            amount=amount,
            payback_years=None,
            net_present_value=None,
            pays=None,
        )
        if amount is None:
            return money
        flows = [cash_flows(amount, gains, nothing) for gains in ends]
        left = Band(*(net_present_value(rate, one) for one in flows))
        return StoragePays(
            years_kept=kept,
            gain_first_year=money.gain_first_year,
            outlay_to_pay=money.outlay_to_pay,
            amount=amount,
            payback_years=Band(*(discounted_payback_years(one, rate, last_part).first for one in flows)),
            net_present_value=left,
            pays=(left.middle or 0.0) >= 0.0 and (money.outlay_to_pay.middle or 0.0) >= _LEAST_MONEY,
        )


def _sd_share(household: Household) -> float:
    if household.values_w is None:
        return SD_PUBLIC_SHAPE
    return SD_OWN_HOURS if spell_swing(household) == 0.0 else SD_AVERAGED


def _share(part: float, whole: float) -> float:
    return part / whole if whole > 0.0 else 0.0
