"""What are the limits of an inverter, as far as was said, and what does its class have elsewhere?"""

from math import ceil

from service.core.completion.defaults import row_for
from service.core.completion.node import Guess, Node
from service.core.errors import ContradictionError
from service.core.model.bounds import BOUNDS
from service.core.model.facts import Input, Inverter

# Above this power inverters are made with inputs for two panels in series, too, and with them higher voltages. Those
# have more than this an input; one for each panel has less (trade, from memory).
_LARGE_W, _OF_ONE_PANEL_W = 1000.0, 600.0
# An input's short-circuit limit over the current that it works with: at the least, as far as its class reaches, and at
# the most. Trade figures, from memory (plates that state both have 1.25 to 1.4).
_LEAST_OVER_AT_WORK, _MOST_OVER_AT_WORK = 1.2, 1.6


def input_count_of(node: Node, arrays: list[Node]) -> int:
    """How many inputs the inverter has: as given or described, else by power and by what the arrays need.

    Raises:
        ContradictionError: ``inputs`` has neither one entry for all nor exactly ``input_count``.
    """
    described = len(node.get("inputs") or ())
    given = node.get("input_count")
    if given is not None:
        if described not in {0, 1, given}:
            raise ContradictionError(
                node.at("inputs"), f"has {described} entries for {given} inputs", given=described,
                accepted=f"one entry for all inputs, or exactly {given}", example=[{}],
            )  # fmt: skip
        return int(given)
    named = [number for array in arrays if (number := array.get("input")) is not None]
    unnamed = len(arrays) - len(named)
    needed = max([*named, len(set(named)) + unnamed])
    if described > 1:
        return described  # counted, not assumed
    power = _power(node)
    by_power = 1 if power <= 400 else 2 if power <= 1000 else ceil(power / 500)
    return int(node.take("input_count", Guess(value=min(max(by_power, needed), int(BOUNDS["input_count"].high)))))


def _power(node: Node) -> float:
    power = node.get("ac_power_w")
    if power is None:
        raise ContradictionError(
            node.at("ac_power_w"), "is missing; nothing can be said without it", accepted="watts on the label",
            example=800,
        )  # fmt: skip
    return float(power)


def inverter_of(node: Node, input_count: int) -> Inverter:
    """The complete inverter with one entry for each input.

    Raises:
        ContradictionError: the set limit lies above the rating, or limits of an input exclude each other.
    """
    power = _power(node)
    set_limit = node.take("set_limit_w", Guess(value=node.get("ac_power_w")))
    if set_limit > power:
        raise ContradictionError(
            node.at("set_limit_w"), "lies above the inverter's a.c. power", given=set_limit,
            accepted=f"0 to {power:g} W", example=power,
        )  # fmt: skip
    entries = node.get("inputs") or [{}]
    inputs = [Node(entries[i if len(entries) > 1 else 0], f"{node.at('inputs')}/{i}", node.log)
              for i in range(input_count)]  # fmt: skip
    certificates = node.get("certificates")
    return Inverter(
        ac_power_w=node.get("ac_power_w"),
        set_limit_w=set_limit,
        input_count=input_count,
        inputs=tuple(input_of(entry, power, input_count) for entry in inputs),
        weighted_efficiency_share=node.take("weighted_efficiency_share"),
        efficiency_weighting=node.take("efficiency_weighting"),
        night_draw_w=node.take("night_draw_w"),
        seat=node.take("seat"),
        certificates=None if certificates is None else tuple(certificates),
        export_limit_w=node.get("export_limit_w"),
        grid_voltage_v=node.get("grid_voltage_v"),
        asks_residual_current_device=node.get("asks_residual_current_device"),
        connector_make=node.get("connector_make"),
    )


def input_of(node: Node, ac_power_w: float, input_count: int) -> Input:
    """The complete input, what was not given taken by its class and by what was.

    Raises:
        ContradictionError: limits of it exclude each other.
    """
    _check_order(node, "tracking_min_v", "tracking_max_v", "max_input_voltage_v")
    _check_order(node, "start_voltage_v", "max_input_voltage_v")
    large = ac_power_w > _LARGE_W and ac_power_w > _OF_ONE_PANEL_W * input_count
    maximum, low, high, greatest_low = _window(node, 150.0 if large else 65.0)
    panel_current = node.get("max_panel_short_circuit_current_a")
    return Input(
        max_input_voltage_v=maximum,
        tracking_min_v=low,
        tracking_max_v=high,
        start_voltage_v=node.take("start_voltage_v", _start(node, low, high, greatest_low)),
        max_current_a=_operating_current(node, panel_current),
        max_short_circuit_current_a=_absolute_current(node, panel_current),
        max_panel_short_circuit_current_a=panel_current,
        max_panel_power_w=node.get("max_panel_power_w"),
        max_panel_power_kind=node.take("max_panel_power_kind"),
        connector_pairs=node.take("connector_pairs"),
        max_input_power_w=node.get("max_input_power_w"),
    )


def _start(node: Node, low: float, high: float, greatest_low: float) -> Guess:
    """22 V within the tracking range; it may be the lower end of the range of an input of the greatest voltage."""
    usual_most = row_for(node.at("start_voltage_v")).high or 0.0
    return Guess(value=_between(22.0, low, high), high=max(usual_most, greatest_low) if greatest_low > low else None)


def _window(node: Node, usual_high_v: float) -> tuple[float, float, float, float]:
    """Maximum voltage and tracking range, filled so that low < high <= maximum whatever was given.

    Where the maximum was not told the range may be that of an input with the greatest of its range, ``usual_high_v``
    about a maximum of 60 V; the lower end of that comes last, or the one taken.

    A range said to reach above a given maximum is a slip of the sheet: it is cut there, and the cut is written down.
    """
    floor = max([v for name in ("tracking_min_v", "start_voltage_v") if (v := node.get(name)) is not None], default=0.0)
    ceiling = node.get("tracking_max_v")
    least = max(60.0, ceiling / 0.92 if ceiling is not None else 0.0, floor / 0.6)
    # the class's range about 60 V, moved along where a given tracking range needs more
    low = max(50.0 * least / 60, ceiling or 0.0, floor)
    top = BOUNDS["max_input_voltage_v"].high
    greatest = round(min(usual_high_v * least / 60, top), 1)
    maximum = node.take(
        "max_input_voltage_v",
        Guess(
            value=round(min(least, top), 1),
            low=round(min(low, top), 1),
            high=greatest,
        ),
    )
    greatest = max(greatest, maximum) if node.get("max_input_voltage_v") is None else maximum
    if ceiling is not None and ceiling > maximum:
        high = node.assume("tracking_max_v", Guess(value=maximum, code="cut_at_greatest_voltage"))
    else:
        value, least = (_between(share * maximum, floor, maximum) for share in (0.92, 0.75))
        high = node.take("tracking_max_v", Guess(value=value, low=least, high=max(maximum, 0.92 * greatest)))
    usual = min(_usual_low(maximum), 0.6 * high)
    of_greatest = min(_usual_low(greatest), 0.6 * max(high, 0.92 * greatest if ceiling is None else high))
    least = BOUNDS["tracking_min_v"].low
    guess = Guess(
        value=_between(usual, least, high),
        low=_between(0.85 * usual, least, high),
        high=_between(max(1.75 * usual, of_greatest), least, high),
    )
    low = node.take("tracking_min_v", guess)
    return maximum, low, high, low if node.get("tracking_min_v") is not None else _between(of_greatest, low, high)


def _usual_low(maximum_v: float) -> float:
    return 16.0 if maximum_v <= 80 else 0.27 * maximum_v


def _between(value: float, low: float, high: float) -> float:
    return min(max(round(value, 2), low), high)


def _operating_current(node: Node, panel_current: float | None) -> float:
    limit = node.get("max_short_circuit_current_a")
    stated = limit / 1.25 if limit is not None else panel_current
    if stated is None:
        return float(node.take("max_current_a"))
    least = BOUNDS["max_current_a"].low
    value = _between(stated, least, max(least, min(stated, 14.0)))
    guess = Guess(value=value, low=_between(0.75 * value, least, value), high=max(value, round(stated, 2)))
    return float(node.take("max_current_a", guess))


def _absolute_current(node: Node, panel_current: float | None) -> float | None:
    """The absolute limit stays unknown where nobody gave it; then its class's range is written down for ``likely``.

    An input stands what it works with, and mostly a fifth more; where no more is known, its class's least. So who
    states the current of a middling input is taken for no worse than who tells nothing, only who states a small one's.
    """
    given = node.get("max_short_circuit_current_a")
    if given is None and panel_current is None:
        stated, row = node.get("max_current_a"), row_for(node.at("max_short_circuit_current_a"))
        low, high = row.low or 0.0, row.high or 0.0
        if stated is not None:
            low = round(max(stated, min(low, _LEAST_OVER_AT_WORK * stated)), 2)
            high = round(max(high, _MOST_OVER_AT_WORK * stated), 2)
        node.assume("max_short_circuit_current_a", Guess(value=None, low=low, high=high))
    return None if given is None else float(given)


def _check_order(node: Node, lower: str, *uppers: str) -> None:
    """The lower voltage lies above none of the upper ones, as far as they were given; the least of them is named."""
    low, given = node.get(lower), {upper: high for upper in uppers if (high := node.get(upper)) is not None}
    if low is not None and given and low > min(given.values()):
        upper, high = min(given.items(), key=lambda pair: float(pair[1]))
        raise ContradictionError(
            node.at(lower), f"lies above {upper}", given=low, accepted=f"at most {high:g} V, the {upper} given beside "
            "it", example=high,
        )  # fmt: skip
