"""Does the text name another price than the field of the page, which no number of pieces explains?

Whoever slips an amount into a text (an order to a reader, a thing sold along) seldom changes the field. So where the
text names the field's amount as well, that is the price, whatever the words beside the other one are.
"""

from collections.abc import Iterable

from service.core.adverts.goods import Goods
from service.core.adverts.walk import Item

PLACEHOLDERS = frozenset({0.0, 1.0, 123.0, 1234.0, 9999.0, 99999.0, 999.0, 12345.0})
_SHARES = (0.5, 3.0)  # of the field's amount, what so many pieces may come to: some are left, or all are cheaper
_ALIKE = 0.02
_MOST_PIECES = 60.0  # where nobody tells how many there are


def held_to_field(
    chosen: Item | None, basis: str | None, offers: Iterable[tuple[Item, str | None]], field: Item | None, goods: Goods
) -> tuple[Item, str | None] | None:
    """The amount that text and field agree on, with what it is for, instead of one that is chosen against both."""
    if chosen is None or field is None or field.value in PLACEHOLDERS or chosen.value == field.value:
        return None
    alike = [(item, role) for item, role in offers if item.value == field.value]
    if not alike or goods.kind == "set":
        return None
    same = next(((item, role) for item, role in alike if role == basis and role is not None), None)
    if same is None and (_explained(chosen, basis, field, goods) or _of_all(chosen, basis, alike, goods)):
        return None
    return same or alike[0]


def _explained(chosen: Item, basis: str | None, field: Item, goods: Goods) -> bool:
    """Can both be true, one for a piece and one for all of them?"""
    if goods.quantity is None:
        return not is_gross(chosen, field)
    share, pieces = chosen.value / field.value, goods.quantity
    shares = (share * pieces,) if basis == "each" else (share, share / pieces)
    return any(_SHARES[0] <= one <= _SHARES[1] for one in shares)


def _of_all(chosen: Item, basis: str | None, alike: Iterable[tuple[Item, str | None]], goods: Goods) -> bool:
    """Is the field's amount told to be that of all pieces, and comes to as many times that of one?"""
    pieces = goods.quantity
    return basis == "each" and pieces is not None and any(
        role == "lot" and abs(chosen.value * pieces - item.value) <= _ALIKE * item.value for item, role in alike
    )  # fmt: skip


def is_gross(chosen: Item, field: Item) -> bool:
    """Are they so far apart that hardly any number of pieces explains it?"""
    return not 1.0 / _MOST_PIECES <= chosen.value / max(field.value, 1.0) <= _MOST_PIECES
