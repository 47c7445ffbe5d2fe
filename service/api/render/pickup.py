"""How does the check at the door read on a phone? What the panels are first, then how to go on."""

from collections.abc import Iterator

from service.api.render.notes import assumption_texts, caution_texts, more_text
from service.api.render.sheet import Item, Section, Sheet, listed
from service.api.schemas.pickup import BetweenOut, PanelSeenOut, PickupCheckOut, PickupOut, QuantityOut
from service.api.words import say
from service.core.pickup import Seen

_WORDS = {Seen.AS_EXPECTED: "AS EXPECTED", Seen.SUSPICIOUS: "SUSPICIOUS", Seen.CANNOT_TELL: "CANNOT TELL"}


def pickup_sheet(answer: PickupCheckOut) -> Sheet:
    """The whole answer, made of nothing but the answer. Without readings it begins with what they should be."""
    pickup, kept_back = answer.pickup, sum(answer.cautions_kept_back.values())
    cautions = tuple(Item("", step, listed(texts)) for step, texts in caution_texts(answer.cautions))
    return Sheet(
        title="What the multimeter must show at the door",
        sections=(
            Section("What the readings say", tuple(_panel(one) for one in pickup.results)),
            Section("What does not go together", listed(one.text for one in pickup.remarks)),
            Section("What a sound panel reads now", tuple(_expected(pickup))),
            Section("When to read it", paragraphs=() if pickup.ask_for is None else (pickup.ask_for.text,)),
            Section("How to measure", listed(one.text for one in pickup.how), numbered=True),
            Section("What to look at", listed(one.text for one in pickup.look_at)),
            Section("What to mind", cautions + ((Item(more_text(kept_back)),) if kept_back else ())),
            Section("What was assumed", listed(assumption_texts(answer.assumptions))),
        ),
        foot=f"As of {answer.as_of}. Sunsill {answer.service_version}, tables {answer.data_version}. A range is meant "
        "to hold 95 sound panels in a hundred; a panel that passes has passed no test of a laboratory.",
    )


def _panel(seen: PanelSeenOut) -> Item:
    share = seen.worth_now_share
    least = seen.worth_now_least_share
    between = "" if least is None or share is None or least >= share else f"{100 * least:.0f} to "
    worth = "" if share is None else f"{between}{100 * share:.0f} % of a sound one's price. "
    return Item(
        f"{_WORDS[seen.verdict]}. {'' if seen.causes else seen.text}".rstrip(),
        seen.panel,
        (
            *listed(cause.text for cause in seen.causes),
            *listed(_measured(one) for one in seen.quantities if one.measured is not None),
            Item(f"{worth}{seen.worth_because.text}", "Worth now"),
            *(Item(one.text, "Not to be seen by this") for one in seen.not_seen),
        ),
    )


def _measured(one: QuantityOut) -> str:
    """What was read beside what was to be expected; of a leak, beside the least insulation."""
    text = f"{say('pickup', f'name.{one.what}')}: {one.measured:g} {one.unit}"
    if one.leak_mohm is not None and one.least_mohm is not None:
        about = "about" if one.causes else "at least"
        return f"{text}; {about} {one.leak_mohm:.3g} megohms, where {one.least_mohm:.3g} are the least"
    if one.low is not None and one.high is not None:
        text += f", expected {one.low:.2f} to {one.high:.2f} {one.unit}"
    return text


def _expected(pickup: PickupOut) -> Iterator[Item]:
    expected = pickup.expected
    for what, unit, between in (
        ("open_circuit_voltage_v", "V", expected.open_circuit_voltage_v),
        ("short_circuit_current_a", "A", expected.short_circuit_current_a),
    ):
        told = (
            say("pickup", "expected.nothing") if between is None else _between(between, unit, 1 if unit == "V" else 2)
        )
        yield Item(told, say("pickup", f"name.{what}"))
    light = pickup.light
    yield Item(f"In light of {_between(light.w_per_m2, 'W/m2', 0)}. {light.text}")
    yield Item(f"With cells at {_between(pickup.cell_c, 'C', 0)}.")


def _between(between: BetweenOut, unit: str, decimals: int) -> str:
    likely, low, high = (f"{value:.{decimals}f}" for value in (between.likely, between.low, between.high))
    return f"about {likely} {unit} ({low} to {high})"
