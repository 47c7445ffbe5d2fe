"""Are the voltages of strings that lie in parallel near enough to each other?

Where they are not, the stronger string drives current backwards through the weaker one whenever the inverter draws
nothing, with no fault anywhere.
"""

from service.core.compatibility.finding import made
from service.core.compatibility.reach import Reach, at_most, combined, exactly
from service.core.compatibility.wiring import Strings, Wiring
from service.core.model.facts import Panel
from service.core.model.finding import Fact, Finding, Part, Verdict

MOST_APART_PCT = 5.0
APART_SOURCE = (
    "IEC 62548 and AS/NZS 5033 (from memory): open-circuit voltages of strings in parallel within 5 % of each other"
)


def unlike_voltages(wiring: Wiring, index: int, here: tuple[Strings, ...]) -> Finding | None:
    """The refusal of strings whose open-circuit voltages lie too far apart; None where they do not.

    Where a voltage was assumed and only part of its range is near enough, the question stays open.
    """
    groups = wiring.side_by_side(here)
    if len(groups) < 2 or all(_made_of(group) == _made_of(groups[0]) for group in groups):
        return None
    volts = [_string_v(wiring, group) for group in groups]
    apart = combined(_apart_pct, *volts)
    low = _least_apart(volts)
    outcome = at_most(Reach(low, apart.value, apart.high, apart.missing), exactly(MOST_APART_PCT))
    if Verdict.FITS in (outcome.verdict, outcome.likely):
        return None
    facts: dict[str, Fact] = {
        "arrays": ", ".join(s.array.name for s in here), "variant": "unlike_voltages",
        "voltages_v": ", ".join(f"{v.value:.1f}" for v in volts if v.value is not None),
    }  # fmt: skip
    return made(
        "unlike_panels", Part.PANEL_SIDE, outcome, f"/inverter/inputs/{index}", input_number=index + 1, facts=facts,
        numbers=(apart.value, MOST_APART_PCT, "%"), source=APART_SOURCE,
    )  # fmt: skip


def _made_of(group: tuple[Strings, ...]) -> list[tuple[Panel, int]]:
    """The panels of a string, as far as they bear on its voltage; alike ones need no figure."""
    return [(s.panel, s.in_series) for s in group]


def _string_v(wiring: Wiring, group: tuple[Strings, ...]) -> Reach:
    """Open-circuit voltage of one string as on the labels: panels in series add, unlike ones too."""
    parts = [combined(lambda v, n=s.in_series: n * v, wiring.of_panel(s, "open_circuit_voltage_v")) for s in group]
    return parts[0] if len(parts) == 1 else combined(lambda *v: sum(v), *parts)


def _apart_pct(*volts: float) -> float:
    """How far the lowest lies below the highest, in per cent of the highest."""
    return 100 * (1 - min(volts) / max(volts))


def _least_apart(volts: list[Reach]) -> float | None:
    """The same with each voltage as near to the others as its range lets it be."""
    if any(v.low is None or v.high is None for v in volts):
        return None
    highest, lowest = max(v.low or 0.0 for v in volts), min(v.high or 0.0 for v in volts)
    return 100 * (1 - lowest / highest) if lowest < highest else 0.0
