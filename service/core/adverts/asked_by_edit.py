"""What is asked for the inverter that an edit leaves of a set?"""

from service.core.adverts.price import Asked
from service.core.adverts.reading import Price

_TO_PRICE = 30  # pieces


def priced_by_edit(asked: Asked, edit: int) -> Asked:
    """What is asked for the inverter: nothing that is not told in the edit."""
    item = asked.item
    if item is None or item.field != 1 or not edit < item.at <= edit + _TO_PRICE:
        return Asked(Price(), None, False, asked.shipping_cost)
    return asked._replace(conflict=False)
