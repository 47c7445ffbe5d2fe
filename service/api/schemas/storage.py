"""How is a small battery written in a request, and how is it answered: without it and with it, side by side?"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Self

from pydantic import ConfigDict, Field

from service.api import fields as f
from service.api.schemas import rounding as r
from service.api.schemas.band import KwhBandOut, MoneyBandOut, YearsBandOut
from service.api.schemas.base import Code, In, Out, Text
from service.api.schemas.rounding import at_most
from service.api.words import say
from service.core.model.finding import Finding, Verdict, worst
from service.core.model.storage import Storage
from service.core.worth import FeedSetting, StorageBeside, StoragePays, left_off


class StorageIn(In):
    """A small battery to be looked at beside the set. Its price is kept apart from the set's outlay."""

    usable_kwh: f.UsableKwh
    coupling: f.Coupling | None = Field(
        default=None, description="dc: between the panels and the inverter; ac: on a socket of its own."
    )
    charge_limit_w: f.ChargeLimitW | None = None
    discharge_limit_w: f.DischargeLimitW | None = None
    max_input_current_a: f.MaxInputCurrentA | None = None
    max_input_voltage_v: f.MaxInputVoltageV | None = Field(
        default=None, description="Absolute maximum voltage of an input of a box before the inverter."
    )
    max_short_circuit_current_a: f.MaxShortCircuitCurrentA | None = Field(
        default=None, description="Absolute maximum of the short-circuit current of an input of such a box."
    )
    round_trip_share: f.RoundTripShare | None = None
    standby_w: f.StandbyW | None = None
    meter_reader: f.Yes | None = Field(
        default=None, description="Does it follow the meter? Without, it feeds a fixed power all night."
    )
    night_feed_w: f.NightFeedW | None = None
    charge_above_w: f.ChargeAboveW | None = None
    ageing_share_per_year: f.AgeingSharePerYear | None = None
    amount: f.Amount | None = None


class UseBesideOut(Out):
    """One side: what is used at home in the first year, and what that saves."""

    self_used_kwh: KwhBandOut
    self_used_share: r.Share = Field(description="Of what reaches the home.")
    exported_kwh: r.Kwh
    covered_share: r.Share = Field(description="Of what the home needs.")
    saving_first_year: MoneyBandOut | None = Field(
        description="Null where no price is known. With the battery: its standby from the mains is taken off."
    )


class StoreYearOut(Out):
    """What passes the battery in its first year, at its terminals: charged is given, lost and standby."""

    charged_kwh: r.Kwh
    unclipped_kwh: r.Kwh = Field(description="Of the charge: what the inverter's limit would have cut, as a.c.")
    given_kwh: r.Kwh
    lost_kwh: r.Kwh
    standby_kwh: r.Kwh = Field(description="The box's own draw, out of the battery.")
    standby_mains_kwh: r.Kwh = Field(description="The box's own draw while the battery is empty: bought on top.")
    full_cycles: r.Kwh
    over_charge_limit_kwh: r.Kwh = Field(
        description="Surplus above its charge limit, as a.c.: it passes by, whether there is room or not."
    )


class StoragePaysOut(Out):
    """What the battery alone brings, against its own price and its own ageing."""

    years_kept: r.YearsKept = Field(ge=0, le=50)
    gain_first_year: MoneyBandOut
    outlay_to_pay: MoneyBandOut = Field(description="The most that may be paid for it so that it pays in these years.")
    amount: r.Money | None
    payback_years: YearsBandOut | None = Field(
        description="With interest; a member is null where it is not within the years kept."
    )
    net_present_value: MoneyBandOut | None
    pays: bool | None = Field(
        description="In the middle case; what brings nothing does not pay, even as a gift. Null where its price was "
        "not given."
    )


class SettingTriedOut(Out):
    """Two fixed powers of a box that reads no meter, and what they bring in this home."""

    night_feed_w: r.Watts = Field(description="0: the box is left off.")
    charge_above_w: r.Watts = Field(description="5000: it never charges, and is left off.")
    more_self_used_kwh: r.Kwh = Field(description="What that adds to the use at home in the first year.")


class ToldOut(Out):
    """Something to know about the battery."""

    code: Code
    text: Text


class StorageOut(Out):
    """The set without the battery and with it. ``use`` and ``payback`` of the answer are of the set without it."""

    model_config = ConfigDict(populate_by_name=True)

    without: UseBesideOut
    with_it: UseBesideOut = Field(alias="with")
    more_self_used_kwh: KwhBandOut = Field(
        description="What it adds to the use at home. May be negative with a box that reads no meter."
    )
    inputs_lost_kwh: r.Kwh = Field(
        description="What the panels give less through the box's inputs than through those of the inverter, as a.c."
    )
    inputs: str | None = Field(
        description="Do the panels suit the inputs of a box before the inverter, by voltage and short-circuit current: "
        "fits, does_not_fit, not_known. Null for a box on a socket of its own.",
        max_length=20,
    )
    year: StoreYearOut
    money: StoragePaysOut | None = Field(description="Null where no price per kWh is known.")
    pays: bool | None = Field(description="Does it pay within the years kept? Null where its price was not given.")
    outlay_to_pay: r.Money | None = Field(description="At which price it would, in the middle case.")
    settings_tried: list[SettingTriedOut] = Field(
        max_length=10,
        description="Of a box that reads no meter: fixed powers tried for this home, most use at home first. Where you "
        "left one of them open the first is the one reckoned with; where you gave both and less is used at home with "
        "them, the first is what to set instead. Empty otherwise.",
    )
    told: list[ToldOut] = Field(max_length=10, description="The result in words, and what is not modelled.")

    @classmethod
    def of(cls, beside: StorageBeside, storage: Storage, currency: str | None, inputs: Sequence[Finding]) -> Self:
        """Both sides with their sentences; ``inputs``: what was found about the inputs of a box before the inverter."""
        money = beside.money
        return cls.from_core(
            beside,
            inputs=worst(one.verdict for one in inputs).value if inputs else None,
            pays=None if money is None else money.pays,
            outlay_to_pay=None if money is None else money.outlay_to_pay.middle,
            settings_tried=[SettingTriedOut.from_core(one) for one in beside.tried],
            told=[
                *_too_much(inputs),
                _result(money, currency, off=left_off(storage)),
                *_about(beside, storage, inputs),
            ],
        )


def _result(money: StoragePays | None, currency: str | None, *, off: bool) -> ToldOut:
    if money is None:
        return _told("no_price_known", {})
    most, lucky = money.outlay_to_pay.middle or 0.0, money.outlay_to_pay.hopeful or 0.0
    facts = {
        "years": money.years_kept, "currency": currency or "", "outlay": at_most(most), "amount": money.amount,
        "payback": None if money.payback_years is None else money.payback_years.middle, "lucky": at_most(lucky),
    }  # fmt: skip
    if lucky < _LEAST_AMOUNT:
        if not money.years_kept:
            return _told("pays_at_no_price.not_kept", facts)
        return _told("pays_at_no_price.left_off" if off else "pays_at_no_price", facts)
    if money.amount is None:
        return _told("pays_up_to" if most >= _LEAST_AMOUNT else "pays_up_to.luck", facts)
    if not money.pays:
        return _told("does_not_pay.luck" if lucky >= money.amount else "does_not_pay", facts)
    cautious = money.net_present_value is not None and (money.net_present_value.cautious or 0.0) >= 0.0
    return _told("pays" if cautious else "pays.middle", facts)


def _too_much(inputs: Sequence[Finding]) -> Iterator[ToldOut]:
    """Panels that the box does not bear come before anything about money."""
    refused = [one for one in inputs if one.verdict == Verdict.DOES_NOT_FIT]
    for one in {(one.code, one.measured, one.limit): one for one in refused}.values():
        yield _told(f"inputs_do_not_fit.{one.code}", _figures(one))


def _on_inputs(inputs: Sequence[Finding]) -> Iterator[ToldOut]:
    """What of the inputs holds by the figures given, and what is not known of them."""
    for code in sorted({one.code for one in inputs}):
        these = [one for one in inputs if one.code == code]
        verdict = worst(one.verdict for one in these)
        if verdict == Verdict.NOT_KNOWN:
            yield _told(f"inputs_not_known.{code}", {})
        elif verdict in {Verdict.FITS, Verdict.FITS_WITH_LOSS}:
            yield _told(f"inputs_fit.{code}", _figures(max(these, key=lambda one: one.measured or 0.0)))


def _figures(one: Finding) -> Mapping[str, object]:
    return {"measured": one.measured or 0.0, "limit": one.limit or 0.0}


def _about(beside: StorageBeside, storage: Storage, inputs: Sequence[Finding]) -> Iterator[ToldOut]:
    """How it works, what it costs the set, what is not reckoned."""
    more = round(beside.more_self_used_kwh.middle or 0.0, 2)
    facts = {
        "given": beside.year.given_kwh, "more": more, "less": -more, "feed": storage.night_feed_w or 0.0,
        "above": storage.charge_above_w or 0.0, "unclipped": beside.year.unclipped_kwh,
        "narrow": beside.inputs_lost_kwh, "over": beside.year.over_charge_limit_kwh,
    }  # fmt: skip
    if storage.meter_reader:
        yield _told("follows_the_meter", facts)
    elif left_off(storage):
        yield _told("left_off" if beside.tried else "left_off.as_said", {})
    else:
        yield _told("feeds_all_night.less" if more < 0.0 else "feeds_all_night", facts)
        yield from _set_at(beside, storage)
    if beside.inputs_lost_kwh >= _WORTH_A_LINE_KWH:
        yield _told("narrow_inputs", facts)
    if beside.year.over_charge_limit_kwh >= _WORTH_A_LINE_KWH:
        yield _told("over_charge_limit", facts)
    if more < 0.0:
        yield _lowers(beside)
    nothing_cut = storage.coupling == "dc" and beside.year.unclipped_kwh < _WORTH_A_LINE_KWH
    yield _told(f"coupling_{storage.coupling}{'.nothing_cut' if nothing_cut else ''}", facts)
    yield from _on_inputs(inputs)
    yield _told("not_modelled", facts)


def _set_at(beside: StorageBeside, storage: Storage) -> Iterator[ToldOut]:
    """Which setting was chosen, and of how many, where one was."""
    if not beside.tried or not _is_set(storage, beside.tried[0]):
        return
    best, others = beside.tried[0], [one.more_self_used_kwh for one in beside.tried[1:]]
    facts = {
        "feed": best.night_feed_w, "above": best.charge_above_w, "best": best.more_self_used_kwh,
        "count": len(beside.tried), "next": max(others, default=0.0),
    }  # fmt: skip
    yield _told("setting_chosen", facts)


def _is_set(storage: Storage, setting: FeedSetting) -> bool:
    return (storage.night_feed_w, storage.charge_above_w) == (setting.night_feed_w, setting.charge_above_w)


def _lowers(beside: StorageBeside) -> ToldOut:
    """With it less is used at home: what would not do that."""
    if not beside.tried:
        return _told("lowers_self_use.narrow", {})
    best = beside.tried[0]
    facts = {"feed": best.night_feed_w, "above": best.charge_above_w, "best": best.more_self_used_kwh}
    return _told("lowers_self_use" if best.more_self_used_kwh > 0.0 else "lowers_self_use.always", facts)


_WORTH_A_LINE_KWH = 1.0
_LEAST_AMOUNT = 0.005  # less than half a hundredth is nothing in any currency


def _told(key: str, facts: Mapping[str, object]) -> ToldOut:
    return ToldOut(code=key.split(".", maxsplit=1)[0], text=say("storage", key, facts))
