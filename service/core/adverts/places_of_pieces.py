"""Which item of a row is the first one that begins at a piece of a field or behind it?"""

from service.core.adverts.walk import Item


def first_from(items: list[Item], field: int, at: int, low: int = 0) -> int:
    """Its place, or that behind the last item. The row is in order of fields and pieces; ``low``: it is not before.

    As ``bisect_left`` does, without a row of two made of each item that is looked at.
    """
    high = len(items)
    while low < high:
        middle = (low + high) >> 1
        one = items[middle]
        if one.field < field or (one.field == field and one.at < at):
            low = middle + 1
        else:
            high = middle
    return low
