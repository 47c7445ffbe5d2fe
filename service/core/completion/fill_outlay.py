"""What has to be paid before the set runs, as far as was said?"""

from service.core.completion.node import Guess, Node
from service.core.errors import ContradictionError
from service.core.model.facts import Fetching, Outlay, OutlayItem

_PANELS = frozenset({"panel", "panels"})


def outlay_of(node: Node, *, used_panels: bool = False) -> Outlay | None:
    """What has to be paid; None where nothing was named. What was not named costs nothing and is not guessed.

    Args:
        node: the outlay as sent.
        used_panels: does the request describe panels that were in use? Silence about faulty ones is then written down.

    Raises:
        ContradictionError: a share of faulty panels, but no panels among the things to be paid.
    """
    nodes = node.children("items")
    if not nodes:
        return None
    asked = bool(node.get("faulty_share"))
    items = tuple(_item(n, at_risk=asked) for n in nodes)
    if asked and not any(item.second_hand for item in items):
        raise ContradictionError(
            node.at("faulty_share"), "is about panels, and none of the things to be paid is said to be panels",
            given=node.get("faulty_share"), accepted='an item with "second_hand": true, or one called panels',
            example={"what": "panels", "amount": 130, "second_hand": True},
        )  # fmt: skip
    freight, less = node.get("freight") or 0.0, node.get("freight_less") or 0.0
    if less > freight:
        raise ContradictionError(
            node.at("freight_less"), "is more than the freight itself", given=less,
            accepted=f"at most the freight, {freight:g}", example=freight,
        )  # fmt: skip
    faulty = node.get("faulty_share")
    if node.get("fetching") is not None:
        for one, item in zip(nodes, items, strict=True):
            if item.what.strip().lower() == "fetching":
                one.assume("what", Guess(value=item.what, code="fetching_beside"))
    return Outlay(
        items=items,
        freight=node.get("freight"),
        freight_less=node.get("freight_less"),
        freight_more=node.get("freight_more"),
        fetching=_fetching(node.child_if_given("fetching")),
        registration=node.get("registration"),
        faulty_share=node.assume("faulty_share") if faulty is None and used_panels else faulty,
    )


def _item(node: Node, *, at_risk: bool) -> OutlayItem:
    what, amount = node.take("what"), node.take("amount")
    said = node.get("second_hand")
    if said is None and at_risk:
        said = node.take("second_hand", Guess(value=_are_panels(what)))
    return OutlayItem(what=what, amount=amount, second_hand=said)


def _are_panels(what: str) -> bool:
    """Is a thing called panels, with or without something before it?

    >>> _are_panels("2 used panels"), _are_panels("panel brackets")
    (True, False)
    """
    return not _PANELS.isdisjoint(what.lower().split()[-1:])


def _fetching(node: Node | None) -> Fetching | None:
    """Own time counts only where somebody mentioned it."""
    if node is None:
        return None
    timed = node.get("hours") is not None or node.get("per_hour") is not None
    return Fetching(
        km=node.take("km"),
        per_km=node.take("per_km"),
        trips=node.take("trips"),
        hours=node.take("hours") if timed else None,
        per_hour=node.take("per_hour") if timed else None,
    )
