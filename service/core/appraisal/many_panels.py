"""Several small inverters, or one wired inverter for all? Advice for many panels, with figures; never a verdict."""

from collections.abc import Iterator
from math import ceil

from service.core.compatibility import Compatibility
from service.core.inverter import SEAT_WARMER_K, life_over_shade
from service.core.model.facts import Setup
from service.core.model.finding import Fact, Verdict

# From here on a wired inverter is worth asking for: a plug-in set has one to four panels.
MANY_PANELS = 5
# Panel power over a.c. power of a wired inverter, as it is usually chosen; trade figure, from memory.
PANEL_OVER_AC = 1.15
# Money a watt of a.c. power, least and most, and an electrician's work; trade figures, from memory, of these
# currencies alone.
_CURRENCIES = frozenset({"EUR", "USD", "GBP", "CHF"})
_SMALL_PER_W = (0.18, 0.45)
_WIRED_PER_W = (0.15, 0.35)
_ELECTRICIAN = (500.0, 1500.0)
_COOL_SEATS = frozenset({"open_shade", "indoors"})

Facts = dict[str, Fact]


def many_panels(setup: Setup, compatibility: Compatibility) -> Iterator[tuple[str, Facts]]:
    """Codes of steps with their facts: limits, heat and life, outlay a watt; none below ``MANY_PANELS`` panels."""
    panels = sum(array.count for array in setup.arrays)
    if panels < MANY_PANELS:
        return
    panel_w = sum(array.count * array.panel.rated_power_w for array in setup.arrays)
    small = ceil(panels / setup.inverter.input_count)  # one panel an input
    yield "many_panels", _limits(setup, compatibility, panels, panel_w, small)
    if setup.inverter.seat not in _COOL_SEATS:
        yield "many_panels_heat", _heat(setup.inverter.seat, small)
    outlay = _outlay(setup, panel_w, small)
    if outlay is not None:
        yield "many_panels_outlay", outlay


def _limits(setup: Setup, compatibility: Compatibility, panels: int, panel_w: float, small: int) -> Facts:
    """A.c. power of both ways, the published cap for plugs, the d.c. voltage of all panels in series."""
    each_w = min(setup.inverter.set_limit_w, setup.inverter.ac_power_w)
    cap = next((f for f in compatibility.findings if f.code == "local_cap"), None)
    known = cap is not None and cap.limit is not None and cap.facts.get("in_force") is True
    facts: Facts = {
        "panels": panels, "panel_w": panel_w, "small_count": small, "small_ac_w": small * each_w,
        "wired_ac_w": round(panel_w / PANEL_OVER_AC, -2), "series_v": round(_in_series_v(setup)), "variant": "",
    }  # fmt: skip
    if known and cap is not None and cap.limit is not None:
        room_w = cap.limit - float(cap.facts.get("other_sets_w") or 0)
        within = min(int(room_w // each_w), small) if each_w > 0 else small
        if each_w > 0 and within == room_w / each_w and cap.facts.get("inclusive") is False:
            within -= 1
        facts |= {"variant": "capped", "cap_w": cap.limit, "cap_unit": cap.unit, "within_cap": max(within, 0),
                  "cap_settled": cap.verdict != Verdict.NOT_KNOWN}  # fmt: skip
    return facts


def _in_series_v(setup: Setup) -> float:
    """Open-circuit voltage of all panels in one string on the coldest morning, V."""
    return sum(
        array.count
        * array.panel.open_circuit_voltage_v
        * (1 + array.panel.voc_coefficient_pct_per_k / 100 * (setup.site.coldest_air_c - 25))
        for array in setup.arrays
    )


def _heat(seat: str, small: int) -> Facts:
    life = life_over_shade(seat)
    return {
        "small_count": small, "seat": seat,
        "warmer_k": SEAT_WARMER_K[seat].middle, "life_low": round(life.cautious or 0.0, 2),
        "life_high": round(life.hopeful or 0.0, 2),
    }  # fmt: skip


def _outlay(setup: Setup, panel_w: float, small: int) -> Facts | None:
    """Money for each watt of panels; the small inverters at the price given, where one was."""
    currency = setup.tariff.currency if setup.tariff else None
    if currency not in _CURRENCIES:
        return None
    ac_w = panel_w / PANEL_OVER_AC
    small_w = small * setup.inverter.ac_power_w
    items = setup.outlay.items if setup.outlay else ()
    paid = sum(item.amount for item in items if "inverter" in item.what.lower())
    low, high = (paid * small, paid * small) if paid > 0 else (_SMALL_PER_W[0] * small_w, _SMALL_PER_W[1] * small_w)
    return {
        "small_count": small, "currency": currency, "variant": "given" if paid > 0 else "",
        "small_low_per_w": round(low / panel_w, 3), "small_high_per_w": round(high / panel_w, 3),
        "wired_low_per_w": round((_WIRED_PER_W[0] * ac_w + _ELECTRICIAN[0]) / panel_w, 3),
        "wired_high_per_w": round((_WIRED_PER_W[1] * ac_w + _ELECTRICIAN[1]) / panel_w, 3),
    }  # fmt: skip
