"""What would one ask of an appraisal about this very set? A sparse request, in the names of every request."""

from collections.abc import Mapping, Sequence
from typing import Any

from service.core.shortlist.candidate import Candidate
from service.core.shortlist.offer import Bought, OwnCosts, delivery_of

_LONGEST_NAME = 60


def request_of(
    shared: Mapping[str, Any], places: Sequence[Mapping[str, Any]], candidate: Candidate, costs: OwnCosts
) -> dict[str, Any]:
    """The request.

    Args:
        shared: site, home, tariff and money as they were sent.
        places: as they were sent; their ``count`` is the room there.
        candidate: the set.
        costs: what comes with every set.
    """
    panels = [one.offer.panel for one in candidate.panels if one.offer.panel is not None]
    inverter = candidate.inverter.inverter
    if inverter is None or len(panels) != len(candidate.panels):
        message = "a candidate without panels or inverter"
        raise ValueError(message)
    arrays = []
    for at, on in enumerate(candidate.layout):
        place = {name: value for name, value in places[on.place].items() if name not in {"name", "input", "joined"}}
        wiring = {"count": on.count} if on.count == 1 else {"count": on.count, "joined": on.joined}
        arrays.append(
            {**place, **_name(candidate, at, places), "input": on.index + 1, **wiring, "panel": panels[on.kind].given}
        )
    outlay = outlay_of(candidate.bought, costs)
    return {**shared, "arrays": arrays, "inverter": dict(inverter.given), **({"outlay": outlay} if outlay else {})}


def outlay_of(bought: Sequence[Bought], costs: OwnCosts) -> dict[str, Any] | None:
    """The outlay of what is bought and of what comes with it; None where nothing is paid for."""
    items: list[dict[str, Any]] = [_item(one, costs) for one in bought if one.offer.advert is not None]
    items += [{"what": what, "amount": amount} for what, amount in costs.items]
    if costs.faulty_share:
        items = [{"second_hand": False, **item} for item in items]
    if not items:
        return None
    delivery = delivery_of(bought, costs.per_km)
    outlay: dict[str, Any] = {"items": items}
    if delivery.freight + costs.freight:
        outlay["freight"] = delivery.freight + costs.freight
    if delivery.freight_less or delivery.freight_more:
        outlay |= {"freight_less": delivery.freight_less, "freight_more": delivery.freight_more}
    if delivery.km and costs.per_km:
        outlay["fetching"] = {"km": delivery.km, "per_km": costs.per_km}
    if costs.registration:
        outlay["registration"] = costs.registration
    if costs.faulty_share and any(item["second_hand"] for item in items):
        outlay["faulty_share"] = costs.faulty_share
    return outlay


def _item(one: Bought, costs: OwnCosts) -> dict[str, Any]:
    offer = one.offer
    what = "set" if offer.panel and offer.inverter else "panels" if offer.panel else "inverter"
    item: dict[str, Any] = {"what": what, "amount": one.goods}
    if costs.faulty_share and offer.panel:
        item["second_hand"] = offer.second_hand
    return item


def _name(candidate: Candidate, at: int, places: Sequence[Mapping[str, Any]]) -> dict[str, str]:
    """The place's name, told apart where several arrays stand there."""
    place = candidate.layout[at].place
    name = places[place].get("name")
    if name is None:
        return {}
    here = [number for number, on in enumerate(candidate.layout) if on.place == place]
    return {"name": name if len(here) == 1 else f"{name[: _LONGEST_NAME - 3]} {here.index(at) + 1}"}
