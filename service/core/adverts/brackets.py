"""Names of ratings in brackets behind their figures: "39.8 V (Voc)", "39.8 / 32.6 V (Voc / Vmp)"."""

from collections.abc import Collection

from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_OPENING = {"(": ")", "[": "]"}
_LONGEST, _FARTHEST, _MOST_LISTED = 12, 4, 4


def alone_in_bracket(scene: Scene, figure: Item, name: Item, names: Collection[str]) -> bool:
    """Does a bracket directly behind a figure hold this name, no other one and no figure but a temperature?"""
    end = _end(scene, figure, name)
    if not end:
        return False
    starts = {what for what in names if what != name.what for at in range(figure.to, end)
              if scene.stands(what, figure.field, at)}  # fmt: skip
    return not starts


def listed_in_bracket(scene: Scene, place: int, names: Collection[str]) -> tuple[list[int], list[int]] | None:
    """Places of figures, and of the different names in the bracket behind the last of them, where these are several."""
    last, first = scene.before(place), scene.items[place]
    if last is None or last.what != NUMBER or last.unit not in {"V", "A", ""}:
        return None
    end = _end(scene, last, first)
    if not end:
        return None
    items, found = scene.items, [place]
    for at in range(place + 1, min(place + _MOST_LISTED + 2, len(items))):
        one = items[at]
        if one.field != first.field or one.at >= end:
            break
        if one.what in names and one.what not in {items[known].what for known in found}:
            found.append(at)
    if len(found) < 2:
        return None
    figures = [place - 1]
    for at in range(place - 2, max(place - 2 - _MOST_LISTED, -1), -1):
        one = items[at]
        if one.sentence != first.sentence or one.what != NUMBER or items[figures[0]].at - one.to > 1:
            break
        figures.insert(0, at)
    return figures[-len(found) :], found


def _end(scene: Scene, figure: Item, name: Item) -> int:
    """Where the bracket that opens directly behind a figure closes, with the name in it; 0 where none does."""
    tokens = scene.tokens[figure.field]
    closing = _OPENING.get(tokens[figure.to]) if figure.to < len(tokens) else None
    if closing is None or not 0 < name.at - figure.to <= _FARTHEST:
        return 0
    for at in range(figure.to + 1, min(figure.to + _LONGEST, len(tokens))):
        if tokens[at] == closing:
            return at if at >= name.to else 0
        behind = tokens[at + 1 : at + 2] if tokens[at][0].isdigit() else ()
        if behind and behind[0] not in scene.small.degree_in_bracket:
            return 0
    return 0
