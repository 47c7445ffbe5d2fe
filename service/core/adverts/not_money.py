"""Is a figure without a currency, beside a price field, no amount: the watts of the panel, a year?

As in "400 pro Stück" below "Solarmodul 400 W" and a price of 50 €.
"""

from service.core.adverts.field import PLACEHOLDERS
from service.core.adverts.goods import Goods
from service.core.adverts.numerals import FIRST_YEAR, LAST_YEAR
from service.core.adverts.scene import Scene
from service.core.adverts.sending_costs import Offers
from service.core.adverts.walk import Item

_ALIKE, _MOST_PIECES = 0.02, 60


def without_watts_and_years(
    scene: Scene, offers: Offers, places: list[int], field: Item | None, goods: Goods
) -> tuple[Offers, list[int]]:
    """Amounts that may be the price without such figures, and their places."""
    if field is None or field.value in PLACEHOLDERS or all(item.unit for item, _ in offers):
        return offers, places
    watts = {scene.items[at].value for at in scene.units.get("W", ())}
    kept = [(place, offer) for place, offer in zip(places, offers, strict=True)
            if not _is_other(offer[0], field, watts, goods)]  # fmt: skip
    return [offer for _, offer in kept], [place for place, _ in kept]


def _is_other(item: Item, field: Item, watts: set[float], goods: Goods) -> bool:
    """Is it a year or a number of watts that no number of pieces makes the field's amount?"""
    if item.unit or item.field > 1 or not (item.value in watts or FIRST_YEAR <= item.value <= LAST_YEAR):
        return False
    counts = (1, goods.quantity) if goods.quantity else range(1, _MOST_PIECES)
    return not any(abs(item.value * count - field.value) <= _ALIKE * field.value for count in counts)
