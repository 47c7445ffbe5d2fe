"""Do the panels' volts suit the input: not too many in the cold, enough in the heat and in the morning?"""

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from service.core.compatibility.cold import COLD_SOURCE, COLDEST, NEC_SOURCE, ColdVolts, cold_volts, voltage_at_cell
from service.core.compatibility.curve_spread import SHAPES, far_from, moved, throughout
from service.core.compatibility.finding import made
from service.core.compatibility.question import InputLimits, Question, printed, when_needed
from service.core.compatibility.reach import Outcome, Reach, at_least, at_most, combined, worse
from service.core.compatibility.wiring import MORNING_CELL_C, MORNING_W_PER_M2, Strings, Wiring
from service.core.model.facts import Panel
from service.core.model.finding import Fact, Finding, Part, Verdict

SINGLE_DIODE_SOURCE = "single-diode model of the datasheet (De Soto, Klein and Beckman 2006)"


def cold_voltage(wiring: Wiring, strings: Strings, known: ColdVolts | None = None) -> Question:
    """Open-circuit voltage of the string on the coldest morning against what the input survives.

    ``known``: its ``cold_volts``, where they are at hand.
    """
    cold = known or cold_volts(wiring, strings)

    def told(limits: InputLimits, outcome: Outcome) -> Finding:
        limit = limits.of("max_input_voltage_v")
        facts: dict[str, Fact] = _string_facts(strings) | {
            "coldest_air_c": wiring.setup.site.coldest_air_c,
            "coldest_estimated": wiring.assumptions.assumed(COLDEST),
            "coldest_low_c": cold.coldest_c[0],
            "label_voltage_v": _label_v(wiring, strings),
            "coefficient_pct_per_k": strings.panel.voc_coefficient_pct_per_k,
            "method": cold.method,
            "worst_v": cold.at_worst.highest,
            "assumed_limit_v": limit.value if limit.missing else None,
        }
        if outcome.missing == (COLDEST,):
            facts["variant"] = "coldest"
        elif facts["coldest_estimated"] and outcome.verdict == Verdict.FITS:
            facts["variant"] = "estimated"
        return made(
            "cold_voltage", Part.PANEL_SIDE, outcome, strings.pointer, input_number=limits.index + 1, facts=facts,
            numbers=(cold.expected.value, printed(limit), "V"),
            source=NEC_SOURCE if cold.method == "nec_table" else COLD_SOURCE,
        )  # fmt: skip

    return Question(lambda limits: cold.judged(limits.of("max_input_voltage_v")), told)


def hot_voltage(wiring: Wiring, strings: Strings) -> Question:
    """Operating voltage of the string against both ends of tracking: energy, no danger.

    The lower end meets the hottest cell. The upper end meets cells as cool as they are in light, 25 C where nothing is
    known of the year: what lies above it there lies above it for a good part of the year, and the input then works at
    its upper end, on the steep side of the curve.

    As in the cold, a voltage or a coefficient that was taken from the panel's class leaves the question open, with the
    class's worst value as ``likely``.
    """

    def hot_v(member: Strings, panel: Panel) -> float:
        share = wiring.curves.hot_share(panel, wiring.hottest(member))
        return member.in_series * panel.max_power_voltage_v * share

    hot, enough = _enough(wiring, strings, hot_v, ("max_power_voltage_v", "voc_coefficient_pct_per_k"))
    below_the_top = _below_the_top(wiring, strings)

    def outcome(limits: InputLimits) -> Outcome:
        return worse(enough(limits.of("tracking_min_v")), below_the_top(limits.of("tracking_max_v"))[1])

    def told(limits: InputLimits, outcome: Outcome) -> Finding:
        limit, ceiling = limits.of("tracking_min_v"), limits.of("tracking_max_v")
        figure, facts = hot, _string_facts(strings) | {"hottest_cell_c": wiring.hottest(strings)}
        facts["worst_v"] = hot.lowest
        if outcome != enough(limit):
            figure, _ = below_the_top(ceiling)
            limit = ceiling
            facts |= {"variant": "above", "worst_v": figure.highest, "assumed_limit_v": ceiling.value}
        return made(
            "hot_voltage", Part.PANEL_SIDE, outcome, strings.pointer, input_number=limits.index + 1, facts=facts,
            numbers=(figure.value, printed(limit), "V"), source=SINGLE_DIODE_SOURCE,
        )  # fmt: skip

    return Question(outcome, told)


def _below_the_top(wiring: Wiring, strings: Strings) -> Callable[[Reach], tuple[Reach, Outcome]]:
    """The string's highest operating voltage, and whether it is below the upper end of tracking.

    No operating voltage lies above the open-circuit voltage: where that stays below, the curve is not asked. An upper
    end that nobody stated lies within a range of the greatest input voltage: where even the least of it is enough, the
    rating is not needed.
    """
    open_v = _open_when_cool(wiring, strings)
    at_work = when_needed(lambda: _at_work_when_cool(wiring, strings))
    never_above = replace(open_v, missing=())

    def judged(ceiling: Reach) -> tuple[Reach, Outcome]:
        below_anyway = open_v.low is not None and open_v.high is not None and ceiling.low is not None and (
            open_v.high <= ceiling.low
        )  # fmt: skip
        label = never_above if below_anyway else at_work()
        outcome = at_most(label, ceiling, Verdict.FITS_WITH_LOSS)
        if outcome.verdict == Verdict.NOT_KNOWN and outcome.likely == Verdict.FITS and not label.missing:
            outcome = Outcome(Verdict.FITS, Verdict.FITS)
        return label, outcome

    return judged


def _open_when_cool(wiring: Wiring, strings: Strings) -> Reach:
    """Open-circuit voltage of the string at cells as cool as they are in light."""
    parts = [
        combined(
            lambda volts, per_k, one=one: one.in_series * voltage_at_cell(volts, per_k, wiring.cool(one)),
            wiring.of_panel(one, "open_circuit_voltage_v"),
            wiring.of_panel(one, "voc_coefficient_pct_per_k"),
        )
        for one in wiring.in_string(strings)
    ]
    return parts[0] if len(parts) == 1 else combined(lambda *volts: sum(volts), *parts)


def _at_work_when_cool(wiring: Wiring, strings: Strings) -> Reach:
    """Voltage at maximum power of the string there, with its range over the ratings that it is asked of."""

    def cool_v(member: Strings, panel: Panel) -> float:
        share = wiring.curves.cool_share(panel, wiring.cool(member)) if wiring.cool_cell_c else 1.0
        return member.in_series * panel.max_power_voltage_v * share

    asked = ("max_power_voltage_v", "voc_coefficient_pct_per_k") if wiring.cool_cell_c else ("max_power_voltage_v",)
    parts = [moved(wiring, one, partial(cool_v, one), asked) for one in wiring.in_string(strings)]
    return parts[0] if len(parts) == 1 else combined(lambda *volts: sum(volts), *parts)


def start_voltage(wiring: Wiring, strings: Strings) -> Question:
    """Open-circuit voltage in dim morning light against the voltage at which the input starts: energy, no danger.

    One that has started runs on when the panel gets hot, so the morning decides, not the afternoon.
    """

    def morning_v(member: Strings, panel: Panel) -> float:
        return member.in_series * panel.open_circuit_voltage_v * wiring.curves.morning_share(panel)

    morning, enough = _enough(wiring, strings, morning_v, ("open_circuit_voltage_v",))

    def told(limits: InputLimits, outcome: Outcome) -> Finding:
        limit, label = limits.of("start_voltage_v"), _label_v(wiring, strings)
        facts = _string_facts(strings) | {
            "irradiance_w_per_m2": MORNING_W_PER_M2,
            "cell_c": MORNING_CELL_C,
            "worst_v": morning.lowest,
            "variant": "seldom_starts" if limit.value is not None and label < limit.value else "",
        }
        return made(
            "start_voltage", Part.PANEL_SIDE, outcome, strings.pointer, input_number=limits.index + 1, facts=facts,
            numbers=(morning.value, printed(limit), "V"), source=SINGLE_DIODE_SOURCE,
        )  # fmt: skip

    return Question(lambda limits: enough(limits.of("start_voltage_v")), told)


def _enough(
    wiring: Wiring, strings: Strings, figure: Callable[[Strings, Panel], float], asked: tuple[str, ...]
) -> tuple[Reach, Callable[[Reach], Outcome]]:
    """A voltage off the panel's curve with its range over the ratings asked about, and whether it reaches a limit."""

    def over(names: tuple[str, ...]) -> Reach:
        members = wiring.in_string(strings)
        parts = [moved(wiring, member, partial(figure, member), names) for member in members]
        return parts[0] if len(parts) == 1 else combined(lambda *volts: sum(volts), *parts)

    voltage = over(asked)
    shaped = when_needed(lambda: over(tuple(name for name in SHAPES if name not in asked)))

    def judged(limit: Reach) -> Outcome:
        outcome = at_least(voltage, limit, Verdict.FITS_WITH_LOSS)
        if limit.value is None or far_from(voltage.value, limit.value):
            return outcome
        return throughout(outcome, shaped, lambda volts: at_least(volts, limit, Verdict.FITS_WITH_LOSS).verdict)

    return voltage, judged


def system_voltage(wiring: Wiring, index: int, strings: Strings, known: ColdVolts | None = None) -> Finding | None:
    """Cold voltage of the string against the voltage that the panel's insulation is made for.

    None where one panel stands alone and the rating is not given: no panel is rated below its own voltage. ``known``:
    as of ``cold_voltage``.
    """
    limit = wiring.of_panel(strings, "max_system_voltage_v")
    if limit.missing and strings.in_series == 1 and len(wiring.in_string(strings)) == 1:
        return None
    cold = known or cold_volts(wiring, strings)
    outcome = cold.judged(limit)
    rated = outcome.verdict == Verdict.NOT_KNOWN and not limit.missing
    return made(
        "system_voltage", Part.PANEL_SIDE, outcome, f"{strings.pointer}/panel", input_number=index + 1,
        numbers=(cold.expected.value, printed(limit), "V"),
        facts=_string_facts(strings) | {"worst_v": cold.at_worst.highest, "variant": "rated" if rated else ""},
        source="IEC 61730: maximum system voltage of the panel",
    )  # fmt: skip


def _label_v(wiring: Wiring, strings: Strings) -> float:
    """The label's open-circuit voltage of the whole string."""
    return sum(member.in_series * member.panel.open_circuit_voltage_v for member in wiring.in_string(strings))


def _string_facts(strings: Strings) -> dict[str, Fact]:
    return {"array": strings.array.name, "in_series": strings.in_series, "in_parallel": strings.in_parallel}
