"""How does the check at the door read on a phone? What the panels are first, then how to go on; 72 columns."""

from collections.abc import Iterable, Iterator

from service.api.render.lines import as_text, headed, wrapped
from service.api.render.notes import assumption_lines, caution_lines
from service.api.schemas.pickup import BetweenOut, PanelSeenOut, PickupCheckOut, PickupOut, QuantityOut, SaidOut
from service.api.words import say
from service.core.pickup import Seen

_WORDS = {Seen.AS_EXPECTED: "AS EXPECTED", Seen.SUSPICIOUS: "SUSPICIOUS", Seen.CANNOT_TELL: "CANNOT TELL"}


def pickup_text(answer: PickupCheckOut) -> bytes:
    """The whole answer, made of nothing but the answer. Without readings it begins with what they should be."""
    pickup = answer.pickup
    ask = () if pickup.ask_for is None else wrapped(pickup.ask_for.text)
    lines = [
        *headed("What the readings say", (line for one in pickup.results for line in _panel(one))),
        *headed("What a sound panel reads now", _expected(pickup)),
        *headed("When to read it", ask),
        *headed("How to measure", _numbered(pickup.how)),
        *headed("What to look at", (line for one in pickup.look_at for line in wrapped(one.text, "- "))),
        *headed("What to mind", caution_lines(answer.cautions, sum(answer.cautions_kept_back.values()))),
        *headed("What was assumed", assumption_lines(answer.assumptions)),
        "",
        *wrapped(
            f"As of {answer.as_of}. Sunsill {answer.service_version}, tables {answer.data_version}. A range is meant "
            "to hold 95 sound panels in a hundred; a panel that passes has passed no test of a laboratory."
        ),
    ]
    return as_text(lines[1:])


def _panel(seen: PanelSeenOut) -> Iterator[str]:
    yield from wrapped(f"{seen.panel}: {_WORDS[seen.verdict]}. {'' if seen.causes else seen.text}")
    for cause in seen.causes:
        yield from wrapped(cause.text, "  - ")
    for one in seen.quantities:
        if one.measured is not None:
            yield from wrapped(_measured(one), "    ", "      ")
    share = seen.worth_now_share
    worth = "" if share is None else f"{100 * share:.0f} % of a sound one's price. "
    yield from wrapped(f"Worth now: {worth}{seen.worth_because.text}", "  ")


def _measured(one: QuantityOut) -> str:
    """What was read beside what was to be expected; of a leak, beside the least insulation."""
    text = f"{say('pickup', f'name.{one.what}')}: {one.measured:g} {one.unit}"
    if one.leak_mohm is not None and one.least_mohm is not None:
        about = "about" if one.causes else "at least"
        return f"{text}; {about} {one.leak_mohm:.3g} megohms, where {one.least_mohm:.3g} are the least"
    if one.low is not None and one.high is not None:
        text += f", expected {one.low:.2f} to {one.high:.2f} {one.unit}"
    return text


def _expected(pickup: PickupOut) -> Iterator[str]:
    expected = pickup.expected
    for what, unit, between in (
        ("open_circuit_voltage_v", "V", expected.open_circuit_voltage_v),
        ("short_circuit_current_a", "A", expected.short_circuit_current_a),
    ):
        told = (
            say("pickup", "expected.nothing") if between is None else _between(between, unit, 1 if unit == "V" else 2)
        )
        yield from wrapped(f"{say('pickup', f'name.{what}')}: {told}", "- ")
    light = pickup.light
    yield from wrapped(f"In light of {_between(light.w_per_m2, 'W/m2', 0)}. {light.text}", "- ")
    yield from wrapped(f"With cells at {_between(pickup.cell_c, 'C', 0)}.", "- ")


def _between(between: BetweenOut, unit: str, decimals: int) -> str:
    likely, low, high = (f"{value:.{decimals}f}" for value in (between.likely, between.low, between.high))
    return f"about {likely} {unit} ({low} to {high})"


def _numbered(told: Iterable[SaidOut]) -> Iterator[str]:
    for number, one in enumerate(told, 1):
        yield from wrapped(one.text, f"{number}. ")
