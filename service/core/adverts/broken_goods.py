"""Are the goods themselves said to be broken: "panel 400 W, broken", "sold for spares or repair"?

A word for it says so of parts, boxes and cars too. Of the goods it does where nothing but light words ("is", "both",
figures) stands between them and it, or where it has a clause of its own.
"""

from collections.abc import Set

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, MONEY_UNITS, NUMBER, PANELS, Item
from service.core.adverts.whose import of_the_goods

DEAD, BROKEN = "d:dead", "s:broken"
_GOODS = PANELS | INVERTERS | {"set_one", "set_many"}
_BESIDE = _GOODS | {NUMBER, "part", "all", "each", "used", "piece", "inputs", "selling", "sold", BROKEN, DEAD,
                    "d:hail_damage", "t:mono", "t:poly", "t:topcon", "bifacial", "without"}  # fmt: skip
_FOR_OTHERS = frozenset(("for", "old_ones"))
_PAIR = 2
_OF_PIECES = MONEY_UNITS | {""}
_PIECES = frozenset(("piece", "each"))
_ENDS = frozenset(".,;:!?()[]\n|/•*-+&=")
_MAY_BE_NONE = (DEAD, "d:cracked_glass")
_FARTHEST, _TO_NONE, _TO_WHOLE = 12, 3, 7


def add_broken_goods(scene: Scene, kind: str, breaking: Set[str]) -> None:
    """Goods that are said to be broken are dead, where no finer defect of those that are ``breaking`` is told."""
    if any(scene.has(f"d:{name}") for name in breaking):
        return
    small = scene.small
    found: list[int] = []
    for place in scene.by_what.get(BROKEN, []):
        item = scene.items[place]
        tokens = scene.tokens[item.field]
        if not tokens[item.to - 1].startswith(small.breaks_all) or scene.denied(place) or _of_others(scene, place):
            continue
        if is_of_goods(scene, place) and not _thrown_away(scene, item):
            found.append(place)
    if found:
        scene.by_what[DEAD] = of_the_goods(scene, found, kind)


def _of_others(scene: Scene, place: int) -> bool:
    """Is it what the goods are for, or what the seller had before: "to replace a broken panel", "my old one broke"?"""
    clause = scene.items[place].clause
    return any(one.what in _FOR_OTHERS and one.clause == clause for one in scene.back(place, 6))


def leave_out_none_broken(scene: Scene) -> None:
    """Where "nothing" is broken, or a box, the goods are not."""
    for what in _MAY_BE_NONE:
        if what in scene.by_what:
            scene.by_what[what] = [at for at in scene.by_what[what] if not _none(scene, scene.items[at])]


def is_packing(scene: Scene, item: Item) -> bool:
    """Is it a box that is broken, no junction box, while the goods are whole: "caja rota, placa intacta"?"""
    small = scene.small
    tokens = scene.tokens[item.field]
    beside = tokens[max(item.at - 2, 0) : item.to + 2]
    return not (small.wrappings.isdisjoint(beside) or small.unbroken.isdisjoint(tokens[item.to : item.to + _TO_WHOLE]))


def _none(scene: Scene, item: Item) -> bool:
    tokens, small = scene.tokens[item.field], scene.small
    for at in range(item.at - 1, max(item.at - _TO_NONE, 0) - 1, -1):
        if tokens[at] in _ENDS:
            return False
        if tokens[at] in small.nothing:
            return True
        if item.what == DEAD and tokens[at] in small.wrappings:  # "packaging damaged"
            return at == 0 or tokens[at - 1] in _ENDS or tokens[at - 1] in small.beside_broken
    return False


def _thrown_away(scene: Scene, item: Item) -> bool:
    """As in "one broke and went to the tip"?"""
    tokens = scene.tokens[item.field]
    end = item.to
    while end < min(item.to + _FARTHEST, len(tokens)) and tokens[end] not in _ENDS:
        end += 1
    return not scene.small.thrown_away.isdisjoint(tokens[item.to : end])


def is_of_goods(scene: Scene, place: int) -> bool:
    """Does it lead back to the goods or to where its clause begins, and on to what says nothing else of it?"""
    item = scene.items[place]
    known = _pieces_beside(scene, place)
    if _is_piece(scene, place, item):
        return False
    tokens, light = scene.tokens[item.field], scene.small.beside_broken
    at = item.at - 1
    while at >= 0 and tokens[at] not in _ENDS:
        what = known.get(at)
        if what in _GOODS:
            break
        if what is None and not (tokens[at] in light or tokens[at][0].isdigit()):
            return False
        at -= 1
        if item.at - at > _FARTHEST:
            return False
    return _ends_there(scene, place, item, known)


def _ends_there(scene: Scene, place: int, item: Item, known: dict[int, str]) -> bool:
    """Does nothing behind the word make it another thing's: "broken corner", "for parts of a roof"?"""
    tokens, small = scene.tokens[item.field], scene.small
    behind = tokens[item.to : item.to + 2]
    if not behind or not behind[0].isalpha() or item.to in known or behind[0] in small.behind_broken:
        return True
    if item.to - item.at > 1 and behind[0] in small.known_one and known.get(item.to + 1) not in _GOODS:
        return False  # "si è rotta la caldaia"
    if behind[0] in small.joining:  # "für Bastler und Heimwerker"
        return (
            len(behind) < _PAIR or not behind[1].isalpha() or item.to + 1 in known or behind[1] in small.beside_broken
        )
    return behind[0] in small.beside_broken or any(
        one.what == "inputs" and one.clause == item.clause and one.at - item.to <= 1 for one in scene.ahead(place, 3)
    )


def _is_piece(scene: Scene, place: int, item: Item) -> bool:
    """Does the word for broken mean a piece here: "4 stuk", "stuk 40 euro"?"""
    near = (*scene.back(place, 5), *scene.ahead(place, 4))
    if not any(one.what in _PIECES and one.at <= item.at < one.to for one in near):
        return False
    if any(one.what == NUMBER and one.to == item.at and one.unit in _OF_PIECES for one in near):
        return True
    tokens = scene.tokens[item.field]
    if not item.at or tokens[item.at - 1] == "\n":  # a line that goes on: "30 euro per / stuk"
        return True
    beside = (tokens[item.at - 1], *tokens[item.to : item.to + 1])
    return any(word[0].isdigit() or word in scene.small.per for word in beside)


def _pieces_beside(scene: Scene, place: int) -> dict[int, str]:
    """What stands in the pieces near a place, as far as it may stand between goods and what is said of them."""
    found: dict[int, str] = {}
    for one in (*scene.back(place, 16), *scene.ahead(place, 4)):
        if one.what in _BESIDE:
            what = "panel_one" if one.unit == "W" else one.what  # watts name goods, too
            for at in range(one.at, one.to):
                if found.get(at) not in _GOODS:
                    found[at] = what
        elif one.what[:2] == "p:":
            for at in range(one.at, one.to):
                found.pop(at, None)
    return found
