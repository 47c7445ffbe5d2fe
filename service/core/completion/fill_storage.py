"""What is the small battery, as far as was said?"""

from service.core.completion.node import Guess, Node
from service.core.errors import ContradictionError
from service.core.model.facts import Household, Inverter
from service.core.model.storage import Storage

_W_PER_KWH = 500.0
_LEAST_W, _MOST_W = 200.0, 2400.0
_ROUND_TRIP = {"dc": (0.90, 0.82, 0.95), "ac": (0.80, 0.70, 0.88)}


def storage_of(node: Node | None, inverter: Inverter, household: Household) -> Storage | None:
    """The complete battery; None where nobody asked about one.

    Raises:
        ContradictionError: a fixed feed beside a meter reader, an input limit of a box on the a.c. side, or a feed
            above the limit of the box.
    """
    if node is None:
        return None
    coupling, reader = node.take("coupling"), node.take("meter_reader")
    usual_w = min(max(_W_PER_KWH * node.get("usable_kwh"), _LEAST_W), _MOST_W)
    most_w = inverter.set_limit_w if coupling == "dc" and inverter.set_limit_w > 0.0 else usual_w
    discharge_w = node.take("discharge_limit_w", Guess(value=round(min(usual_w, most_w), 1)))
    middle, low, high = _ROUND_TRIP[coupling]
    feed_w, above_w = _fixed_feed(node, discharge_w, household) if not reader else _no_fixed_feed(node)
    return Storage(
        usable_kwh=node.get("usable_kwh"),
        coupling=coupling,
        charge_limit_w=node.take("charge_limit_w", Guess(value=round(usual_w, 1))),
        discharge_limit_w=discharge_w,
        max_input_current_a=_input_current(node, coupling),
        round_trip_share=node.take("round_trip_share", Guess(value=middle, low=low, high=high)),
        standby_w=node.take("standby_w"),
        meter_reader=reader,
        night_feed_w=feed_w,
        charge_above_w=above_w,
        ageing_share_per_year=node.take("ageing_share_per_year"),
        amount=node.get("amount"),
        max_input_voltage_v=_of_an_input(node, "max_input_voltage_v", coupling),
        max_short_circuit_current_a=_of_an_input(node, "max_short_circuit_current_a", coupling),
    )


def _fixed_feed(node: Node, discharge_w: float, household: Household) -> tuple[float, float]:
    feed_w = node.take("night_feed_w", Guess(value=round(min(household.always_on_w, discharge_w), 1)))
    if feed_w > discharge_w:
        raise ContradictionError(
            node.at("night_feed_w"), "is more than the battery gives", given=feed_w,
            accepted=f"at most discharge_limit_w, {discharge_w:g}", example=discharge_w,
        )  # fmt: skip
    return feed_w, node.take("charge_above_w", Guess(value=feed_w))


def _no_fixed_feed(node: Node) -> tuple[None, None]:
    for name in ("night_feed_w", "charge_above_w"):
        if node.get(name) is not None:
            raise ContradictionError(
                node.at(name), "is of a box without a meter reader", given=node.get(name),
                accepted="nothing, or meter_reader false", example="null",
            )  # fmt: skip
    return None, None


def _input_current(node: Node, coupling: str) -> float | None:
    given = _of_an_input(node, "max_input_current_a", coupling)
    if given is None and coupling == "dc":
        node.assume("max_input_current_a")
    return given


def _of_an_input(node: Node, name: str, coupling: str) -> float | None:
    """A limit of the box's inputs; what is not given stays unknown."""
    given: float | None = node.get(name)
    if given is not None and coupling == "ac":
        raise ContradictionError(
            node.at(name), "is of a box before the inverter", given=given,
            accepted='nothing, or "coupling": "dc"', example="null",
        )  # fmt: skip
    return given
