"""Is an amount of nought the price, or is it what fetching, sending or a tax costs: "Abholung 0 €, Versand 20 €"?"""

from service.core.adverts.field import PLACEHOLDERS
from service.core.adverts.scene import Scene
from service.core.adverts.sending_costs import Offers
from service.core.adverts.walk import Item

_COSTS = frozenset(("pickup", "shipping", "bring", "deposit", "viewing"))
_NEAR = 3


def without_zeros(scene: Scene, offers: Offers, places: list[int], field: Item | None) -> tuple[Offers, list[int]]:
    """Amounts that may be the price without noughts that are not, and their places."""
    other = any(item.value for item, _ in offers) or (field is not None and field.value not in PLACEHOLDERS)
    kept = [(place, offer) for place, offer in zip(places, offers, strict=True)
            if offer[0].value or not (other or _costs_nothing(scene, place, offer[0]))]  # fmt: skip
    return [offer for _, offer in kept], [place for place, _ in kept]


def _costs_nothing(scene: Scene, place: int, item: Item) -> bool:
    """Does a word for fetching, sending or a tax stand close beside it?"""
    near = (*scene.back(place, 3), *scene.ahead(place, 3))
    if any(one.what in _COSTS and one.clause == item.clause for one in near):
        return True
    beside = scene.tokens[item.field][max(item.at - _NEAR, 0) : item.to + _NEAR]
    return not scene.small.tax.isdisjoint(beside)
