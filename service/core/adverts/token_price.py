"""Does an amount of one only fill the price field: "not 1 €, 50 €", "£1 is just to get it listed", "price symbolic"?

Then neither field nor text has it for a price.
"""

from service.core.adverts.scene import Scene, numbers
from service.core.adverts.sending_costs import Offers
from service.core.adverts.walk import NUMBER, Item

_TOKEN = 1.0
_ENDS = frozenset(".!?\n")
_BEFORE, _AHEAD, _TO_PRICE = 4, 8, 6
_LETTERS = 3  # a point behind fewer ends no sentence: "1 kr."


def without_tokens(
    scene: Scene, offers: Offers, places: list[int], field: Item | None
) -> tuple[Offers, list[int], Item | None]:
    """Amounts that may be the price without those of up to one that are none, their places, and the page's field."""
    small_field = field is not None and 0 < field.value <= _TOKEN
    if not small_field and not any(0 < item.value <= _TOKEN for item, _ in offers):
        return offers, places, field
    told = any(_is_token(scene, scene.items[at]) for at in numbers(scene) if 0 < scene.items[at].value <= _TOKEN)
    if not (told or (small_field and _price_is_token(scene))):
        return offers, places, field
    kept = [(place, offer) for place, offer in zip(places, offers, strict=True) if not 0 < offer[0].value <= _TOKEN]
    return [offer for _, offer in kept], [place for place, _ in kept], None if small_field else field


def _is_token(scene: Scene, item: Item) -> bool:
    """Is it denied, or do words for what only fills a field stand close by in its sentence?"""
    tokens, small = scene.tokens[item.field], scene.small
    if item.what != NUMBER or item.spelled:
        return False
    near = [word for word in tokens[max(item.at - 2, 0) : item.at] if word.isalpha()]
    if len(near) > 1 and near[-1] in small.beside_broken:  # "no es 1 €"
        near.pop()
    if near and near[-1] in small.order_not and tokens[item.at - 1] not in _ENDS:
        return True
    before = tokens[max(item.at - _BEFORE, 0) : item.at][::-1]
    words = (*_up_to_end(before), *_up_to_end(tokens[item.to : item.to + _AHEAD]))
    return _tells_token(scene, words) or not small.to_list.isdisjoint(words)


def _tells_token(scene: Scene, words: tuple[str, ...]) -> bool:
    return any(word.startswith(scene.small.token_named) for word in words)


def _up_to_end(tokens: list[str]) -> list[str]:
    end = next((at for at, word in enumerate(tokens) if word in _ENDS and not (at and len(tokens[at - 1]) < _LETTERS)),
               len(tokens))  # fmt: skip
    return tokens[:end]


def _price_is_token(scene: Scene) -> bool:
    """Is the price itself called so: "price is symbolic"?"""
    for at in scene.by_what.get("price", ()):
        item = scene.items[at]
        tokens = scene.tokens[item.field]
        before = _up_to_end(tokens[max(item.at - _BEFORE, 0) : item.at][::-1])
        if _tells_token(scene, (*before, *_up_to_end(tokens[item.to : item.to + _TO_PRICE]))):
            return True
    return False
