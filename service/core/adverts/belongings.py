"""Is only a thing sold that belongs to the goods: "inverter cable", "battery for a balcony set", "case of an inverter"?

Asked of the title, or of the first words of the body where the title names nothing. In most languages such a thing
stands first ("cavo per inverter", "Kabel Wechselrichter"), in some behind the goods as well ("inverter cable").
"""

from collections.abc import Mapping

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, PANELS, Item

_GOODS = PANELS | INVERTERS | {"set_one", "set_many"}
_BEHIND = INVERTERS | {"set_one", "set_many"}  # what a thing stands directly behind: "inverter cable"
_ENDS = frozenset(".,;:!?()\n|+&/•*=")
_KINDS = ("panel", "inverter", "set")
_KINDS_BESIDE = frozenset(("panel", "set"))
_MOST_BETWEEN, _FIRST, _LOOKED_BACK, _CLOSE, _BESIDE = 5, 8, 14, 2, 3


def sells_a_belonging(scene: Scene, offered: Mapping[str, list[int]]) -> bool:
    """Is it such a thing, and are no goods named in the body by themselves?

    Args:
        scene: the advert.
        offered: places of goods by their kind, without those that the text says it is not about.
    """
    if "voc" in scene.by_what and "isc" in scene.by_what:
        return False
    if _belong(scene, scene.tokens[0]):
        field = 0
    elif _names_goods(scene) or not _belong(scene, scene.tokens[1][:_FIRST]):
        return False
    else:
        field = 1
    return _heads(scene, field) and not any(
        scene.items[place].field and _by_itself(scene, place) for kind in _KINDS for place in offered.get(kind, ())
    )


def sells_another_inverter(scene: Scene, title: Mapping[str, list[int]], offered: Mapping[str, list[int]]) -> bool:
    """Is it the inverter of a welder, an oven, a generator or an air conditioner that the title names?

    Or the first words of the body: "inverter generator 2 kW".
    """
    if "inverter" not in offered or "panel" in title or "set" in title:
        return False
    if "inverter" not in title and not _KINDS_BESIDE.isdisjoint(offered):
        return False
    if any(_of_another(scene, 0, at) for at in range(len(scene.tokens[0]))):
        return True
    words = scene.tokens[1]
    one = next((scene.items[place] for place in offered["inverter"] if scene.items[place].field), None)
    if one is None or one.at >= _FIRST:
        return False
    before = [at for at in range(max(one.at - _BESIDE, 0), one.at) if _ENDS.isdisjoint(words[at : one.at])]
    behind = [at for at in range(one.to, min(one.to + _BESIDE, len(words))) if _ENDS.isdisjoint(words[one.to : at])]
    return any(_of_another(scene, 1, at) for at in (*before, *behind))


def _of_another(scene: Scene, field: int, at: int) -> bool:
    """Does a word for such a machine stand there, and no "for" before it?"""
    if not scene.tokens[field][at].startswith(scene.small.other_inverters):
        return False
    return not scene.stands("for", field, at - 1)


def _names_goods(scene: Scene) -> bool:
    """Are goods named in the title?"""
    return any(scene.items[scene.by_what[what][0]].field == 0 for what in scene.by_what.keys() & _GOODS)


def _belong(scene: Scene, words: list[str]) -> bool:
    """Is one of the words one for such a thing, or one of the title a lamp or a bracket?"""
    small = scene.small
    if not small.belongings.isdisjoint(words):
        return True
    ends = small.belonging_ends
    if [word for word in words if word.endswith(ends)]:
        return True
    others = scene.by_what.get("other_goods")
    return others is not None and scene.items[others[0]].field == 0 and words is scene.tokens[0]


def is_belonging(scene: Scene, word: str) -> bool:
    """Is it a word for such a thing?"""
    return word in scene.small.belongings or word.endswith(scene.small.belonging_ends)


def _heads(scene: Scene, field: int) -> bool:
    """Is such a thing what the first words are about?"""
    tokens = scene.tokens[field]
    end = len(tokens) if field == 0 else min(len(tokens), _FIRST)
    goods = _goods_in(scene, field, end)
    others = [scene.items[place] for place in scene.by_what.get("other_goods", [])]
    things = {one.to - 1 for one in others if one.field == field}
    for at in range(end):
        if not (at in things or is_belonging(scene, tokens[at])) or (at and tokens[at - 1] in scene.small.coming_along):
            continue
        if tokens[at + 1 : at + 2] == ["-"]:  # "fan-cooled"
            continue
        before = [one for one in goods if one.to <= at]
        behind = [one for one in goods if one.at > at]
        if not before and not behind:
            return field == 0 and _is_first(tokens, at)
        if not before:
            between = tokens[at + 1 : behind[0].at]
            told = field == 0 or not scene.small.of_place.isdisjoint(between) or not between
            return told and (field == 0 or _is_first(tokens, at)) and _of(scene, between)
        between = [word for word in tokens[before[-1].to : at] if word != "-"]
        close = len(between) < _CLOSE and all(word.isalpha() for word in between) and _of(scene, between)
        return before[-1].what in _BEHIND and close and all(_is_for(scene, tokens, at, one) for one in behind)
    return False


def _goods_in(scene: Scene, field: int, end: int) -> list[Item]:
    places = [at for what in scene.by_what.keys() & _GOODS for at in scene.by_what[what]]
    return [one for one in map(scene.items.__getitem__, sorted(places)) if one.field == field and one.at < end]


def _is_first(tokens: list[str], at: int) -> bool:
    """Does nothing but an adjective stand before it: "neuer Stromspeicher"?"""
    return at < _CLOSE and all(word.isalpha() for word in tokens[:at])


def _of(scene: Scene, between: list[str]) -> bool:
    """Do words that stand between make one thing of both, as "for" and "of" do, not two, as "and" and "with"?"""
    small = scene.small
    return (
        len(between) <= _MOST_BETWEEN
        and _ENDS.isdisjoint(between)
        and small.set_joining.isdisjoint(between)
        and small.coming_along.isdisjoint(between)
    )


def _is_for(scene: Scene, tokens: list[str], at: int, one: Item) -> bool:
    """Does "for" stand between such a thing and goods behind it: "inverter cable for balcony sets"?"""
    return any(
        scene.items[place].field == one.field and at < scene.items[place].at < one.at
        for place in scene.by_what.get("for", [])
    ) and _of(scene, tokens[at + 1 : one.at])


def _by_itself(scene: Scene, place: int) -> bool:
    """Are goods named by themselves, not as what a thing belongs to, is for, or ran with?"""
    item = scene.items[place]
    tokens, small = scene.tokens[item.field], scene.small
    if scene.denied(place):
        return False
    if any(is_belonging(scene, word) for word in tokens[item.to : item.to + _CLOSE]) and _of(
        scene, tokens[item.to : item.to + 1]
    ):
        return False
    if any(one.what == "for" and one.clause == item.clause for one in scene.back(place, _LOOKED_BACK)):
        return False
    for at in range(item.at - 1, max(item.at - _LOOKED_BACK, 0) - 1, -1):
        word = tokens[at]
        if word in small.ran_with:
            return False
        if is_belonging(scene, word):
            between = tokens[at + 1 : item.at]
            first = next((one for one in between if one in small.of_place or one in small.coming_with), "")
            return first not in small.of_place and not _of(scene, between)
        if word in _ENDS:
            break
    return True
