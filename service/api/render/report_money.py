"""How do energy, use at home and money read on paper? Figures with the digits that their band allows."""

from collections.abc import Iterable, Iterator

from service.api.render.lines import wrapped
from service.api.schemas.band import KwhBandOut, MoneyBandOut, YearsBandOut
from service.api.schemas.energy import EnergyOut
from service.api.schemas.payback import BreakEvenOut, PaybackOut
from service.api.schemas.rounding import at_most, for_people
from service.api.schemas.storage import StorageOut
from service.api.schemas.use import HabitOut, UseOut
from service.api.words import say

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
# A loss below this share of the light is not worth a line.
_WORTH_A_LINE = 0.005


def energy_lines(energy: EnergyOut) -> Iterator[str]:
    """The year with its band, the months, clear days, what is lost, what makes it uncertain."""
    yield from wrapped(f"About {_banded(energy.told())} kWh in a year.")
    yield from wrapped("Nine cases in ten do better than the first figure in brackets, one in ten than the last.")
    yield ""
    for half in (slice(0, 6), slice(6, 12)):
        yield "  " + "".join(f"{name:>9}" for name in _MONTHS[half])
        yield "  " + "".join(f"{_month(kwh):>9}" for kwh in energy.months_kwh[half]) + "  kWh"
    yield ""
    clear = [day for day in energy.day_kinds if day.kind == "clear"]
    if clear:
        peaks = ", ".join(f"{for_people(max(day.ac_w))} W in {day.season}" for day in clear)
        yield from wrapped(f"Best hour of a clear day: {peaks}.")
    if energy.hours_at_limit:
        yield from wrapped(f"The inverter's limit cuts in {energy.hours_at_limit:.0f} hours of the year.")
    for array in energy.arrays:
        plane = f"tilt {array.plane.tilt_deg:g}, azimuth {array.plane.azimuth_deg:g} degrees"
        name = array.name if array.name.lower().startswith("array") else f"array {array.name}"
        yield from wrapped(f"{name[:1].upper()}{name[1:]}: {for_people(array.year_kwh or 0.0)} kWh ({plane}).")
    yield ""
    yield from wrapped(f"Of {for_people(energy.light_kwh)} kWh in the light on the panels:")
    yield from _loss_lines(energy)
    yield ""
    yield "What makes it uncertain, each as a standard deviation:"
    for part in energy.spread:
        more = "" if part.upward_sd_share is None else f" less, {100 * part.upward_sd_share:.1f} % more"
        yield from wrapped(f"{100 * part.relative_sd_share:.1f} %{more}: {part.text}", "- ")


def _loss_lines(energy: EnergyOut) -> Iterator[str]:
    """The losses that are worth a line, and the others together, so that the account closes on paper too."""
    told = {code: kwh for code, kwh in energy.lost_kwh.items() if abs(kwh) > _WORTH_A_LINE * energy.light_kwh}
    for code, kwh in told.items():
        yield from wrapped(f"{for_people(kwh)} kWh {say('losses', code)}", "- ")
    rest = sum(energy.lost_kwh.values()) - sum(told.values())
    if for_people(rest) != "0":
        yield from wrapped(f"{for_people(rest)} kWh lost in smaller ways", "- ")
    yield from wrapped(f"{for_people(energy.told().middle)} kWh are left.")


def use_lines(use: UseOut) -> Iterator[str]:
    """How much of it is used at home, beside a plant on the roof, and what other hours of machines would gain."""
    yield from wrapped(
        f"About {_banded(use.self_used_kwh)} kWh are used at home: {100 * use.self_used_share:.0f} % of what the set "
        f"gives, {100 * use.covered_share:.0f} % of what the home needs. {for_people(use.exported_kwh)} kWh are sent "
        "out."
    )
    yield from wrapped(
        f"Upper bound: {for_people(use.upper_bound_self_used_kwh)} kWh, if the home drew evenly within each hour. It "
        "does not."
    )
    if use.other_generation:
        roof = use.other_generation
        yield from wrapped(
            f"The plant on the roof comes first: of its {for_people(roof.year_kwh)} kWh "
            f"{for_people(roof.self_used_kwh)} are used at home, and {for_people(roof.displaced_kwh)} kWh less of this "
            "set than without it."
        )
    own = "the set" if use.other_generation is None else "your own power, from roof and set together,"
    yield from _listed("When to run the machines", (_habit(one, own) for one in use.habits))


def _habit(habit: HabitOut, own: str) -> str:
    """Where another hour gains something, how much; small as it is. ``own``: whose power is meant."""
    if habit.best_start == habit.usual_start:
        return f"{habit.machine}: {habit.usual_start} is as good as any."
    worth = "" if habit.gain_per_year is None else f", worth about {habit.gain_per_year:.0f} {habit.currency}"
    kwh = habit.gain_kwh_per_year
    return (
        f"{habit.machine}: started at {habit.best_start} instead of {habit.usual_start} it uses about {abs(kwh):.0f} "
        f"kWh {'more' if kwh >= 0 else 'less'} of {own} a year{worth}."
    )


def money_lines(payback: PaybackOut) -> Iterator[str]:
    """Saving, outlay, payback, what is left, what to bid, what moves it, the greenhouse gas."""
    currency = payback.currency
    yield from wrapped(f"Saving in the first year: about {_banded(payback.saving_first_year)} {currency}.")
    yield from _outlay_lines(payback)
    if payback.simple_payback_years:
        simple = payback.simple_payback_years
        longer = simple.middle is not None and simple.middle > payback.years_kept
        beyond = f", longer than the {payback.years_kept} years counted" if longer else ""
        yield from wrapped(f"Paid back, without interest: {_years(simple)}{beyond}.")
    if payback.discounted_payback_years:
        yield from wrapped(f"Paid back, with interest: {_years(payback.discounted_payback_years)}.")
    if payback.crossings and payback.crossings.code in _ODD_CROSSINGS:
        yield from wrapped(payback.crossings.text)
    if payback.net_present_value:
        yield from wrapped(
            f"Left over after {payback.years_kept} years, in today's money: about "
            f"{_banded(payback.net_present_value)} {currency}."
        )
    if payback.if_moving_after_years:
        moving = payback.if_moving_after_years
        gain = f"{_banded(moving.gain)} {currency}"
        yield from wrapped(f"Moving out after {moving.years} years leaves about {gain}, interest left aside.")
    if payback.rates_of_return:
        yield from wrapped(payback.rates_of_return.text)
    if payback.levelised_cost_per_kwh is not None and payback.levelised_cost_per_kwh > 0:
        cost = f"{payback.levelised_cost_per_kwh:.2f} {currency}"
        yield from wrapped(f"One kWh from the set costs about {cost}, spread over all it gives, sent out or not.")
    yield from _listed("What to bid", (_bid(one, currency) for one in payback.break_even))
    free = payback.crossings is not None and payback.crossings.code == "nothing_to_pay_back"
    moving_it = () if free else (one.text for one in payback.sensitivity)
    yield from _listed("What moves the payback, the largest first", moving_it)
    if payback.co2_avoided_kg_per_year is not None:
        kilograms = for_people(payback.co2_avoided_kg_per_year)
        yield ""
        yield from wrapped(f"About {kilograms} kg of CO2 a year stay out of the air. {payback.co2.text}")


def storage_lines(storage: StorageOut, currency: str) -> Iterator[str]:
    """A small battery: without and with it, and what to know."""
    for name, side in (("Without", storage.without), ("With", storage.with_it)):
        saving = side.saving_first_year
        saved = "" if saving is None else f"; that saves about {_banded(saving)} {currency} in the first year"
        yield from wrapped(f"{name} the battery about {_banded(side.self_used_kwh)} kWh are used at home{saved}.")
    yield from (line for one in storage.told for line in wrapped(one.text, "- "))


_ODD_CROSSINGS = frozenset({"paid_back_twice", "undone", "by_selling", "by_selling_at_last"})


def _outlay_lines(payback: PaybackOut) -> Iterator[str]:
    """What has to be paid, and of what it is made where there is more than things."""
    currency, parts = payback.currency, payback.outlay_parts
    if payback.outlay is None or parts is None:
        yield from wrapped("No outlay was given, so nothing is said of the payback.")
        return
    others = (
        ("freight", parts.freight),
        ("fetching", parts.fetching),
        ("registration", parts.registration),
        ("faulty panels bought again", parts.second_hand_risk),
    )
    listed = [f"{name} {for_people(amount)}" for name, amount in (("things", parts.things), *others) if amount]
    if parts.rebates:
        listed.append(f"rebates of {for_people(parts.rebates)} taken off")
    made_of = f" ({', '.join(listed)})" if len(listed) > 1 else ""
    yield from wrapped(f"Outlay: {payback.outlay:.0f} {currency}{made_of}.")


def _bid(one: BreakEvenOut, currency: str) -> str:
    """The sentence of the middle case, and what a bidder on the wary side would pay."""
    if not one.outlay:
        return one.text
    return f"{one.text} With bad luck: up to {at_most(one.worth_up_to.cautious)} {currency}."


def _listed(heading: str, texts: Iterable[str]) -> Iterator[str]:
    """A heading and its lines; nothing where there are none."""
    for number, text in enumerate(texts):
        if number == 0:
            yield ""
            yield f"{heading}:"
        yield from wrapped(text, "- ")


def _banded(band: KwhBandOut | MoneyBandOut) -> str:
    """The middle, and both ends in brackets, all with the digits that the spread allows."""
    low, high = sorted((band.cautious, band.hopeful))
    middle, cautious, hopeful = (for_people(value, low, high) for value in (band.middle, band.cautious, band.hopeful))
    return middle if cautious == hopeful else f"{middle} ({cautious} to {hopeful})"


def _years(band: YearsBandOut) -> str:
    if band.middle is None:
        best = "" if band.hopeful is None else f"; with luck after {band.hopeful:.1f} years"
        return f"not within the years kept{best}"
    if band.cautious == 0:
        return "from the first day, as it costs nothing"
    cautious = "not within the years kept" if band.cautious is None else f"{band.cautious:.1f}"
    hopeful = "" if band.hopeful is None else f", with luck {band.hopeful:.1f}"
    return f"after about {band.middle:.1f} years (with bad luck {cautious}{hopeful})"


def _month(kwh: float | None) -> str:
    if kwh is None:
        return "no data"
    return f"{kwh:.0f}" if kwh >= 10 else f"{kwh:.1f}"
