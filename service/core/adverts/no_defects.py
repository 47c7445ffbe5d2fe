"""Which words for a defect tell of none: a code ("HS 410"), a cracked carton, a neighbour's panels, whole glass?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_CRACKED, _GLASS = "d:cracked_glass", "p:glass"
_HAIL = "d:hail_damage"
_MAY_BE_CODES = ("d:dead", "s:broken")
_PARTS = frozenset(".,;!?\n")
_CLAUSE, _OF_DAMAGE = frozenset(".,!?;\n"), frozenset(("d:", "s:"))
_TO_DID = 16  # pieces
_CODE, _NEAR, _STRANGERS, _MINE = 2, 4, 8, 14  # signs; pieces


def leave_out_no_defects(scene: Scene) -> None:
    """Such words go from what the advert tells."""
    for what in _MAY_BE_CODES:
        if what in scene.by_what:
            _keep(scene, what, [at for at in scene.by_what[what] if not _is_code(scene, scene.items[at])])
    if _HAIL in scene.by_what:
        _keep(scene, _HAIL, [at for at in scene.by_what[_HAIL] if not _did_nothing(scene, at, scene.items[at])])
    if _CRACKED in scene.by_what:
        whole = [scene.items[at] for at in scene.by_what.get(_GLASS, []) if _is_whole(scene, scene.items[at])]
        _keep(scene, _CRACKED, [at for at in scene.by_what[_CRACKED] if not (
              _of_box(scene, at) or _of_strangers(scene, at) or (whole and not _names_glass(scene, at)))])  # fmt: skip


def _keep(scene: Scene, what: str, kept: list[int]) -> None:
    if kept:
        scene.by_what[what] = kept
    else:
        del scene.by_what[what]


def _did_nothing(scene: Scene, place: int, item: Item) -> bool:
    """As in "the hail did nothing to them", not "it hit two, to the others it did nothing"?"""
    tokens, small = scene.tokens[item.field], scene.small
    behind = tokens[item.to : item.to + _TO_DID]
    end = next((at for at, word in enumerate(behind) if word in _CLAUSE), len(behind))
    told = behind[:end]
    if small.did_nothing.isdisjoint(told) or small.nothing.isdisjoint(told) or not small.others.isdisjoint(told):
        return False
    near = (one for one in scene.ahead(place, 6) if one.sentence == item.sentence)
    return not any(one.what == "part" or one.what[:2] in _OF_DAMAGE for one in near)


def _is_code(scene: Scene, item: Item) -> bool:
    """Is it a letter or two before a figure without a unit, so that both are a name: "HS 410"?"""
    tokens = scene.tokens[item.field]
    if item.to - item.at > 1 or len(tokens[item.at]) > _CODE:
        return False
    at = item.to + (tokens[item.to : item.to + 1] == ["-"])
    if not tokens[at : at + 1] or not tokens[at][0].isdigit():
        return False
    figures = [scene.items[place] for place in scene.by_what.get(NUMBER, [])]
    return not any(one.field == item.field and one.at == at and one.unit for one in figures) or (
        at == item.to and scene.glued(item.field, at)
    )


def _is_whole(scene: Scene, glass: Item) -> bool:
    """Is it said behind the glass that it is whole: "glass intact", "das Glas ist heil"?"""
    behind = scene.tokens[glass.field][glass.to : glass.to + _NEAR]
    at = next((at for at, word in enumerate(behind) if word in scene.small.unbroken), None)
    return at is not None and scene.small.order_not.isdisjoint(behind[:at]) and not _PARTS.intersection(behind[:at])


def _names_glass(scene: Scene, place: int) -> bool:
    """Is the glass named in its words or in its clause?"""
    item = scene.items[place]
    if item.to - item.at > 1:
        return True
    near = (*scene.back(place, 6), *scene.ahead(place, 6))
    return any(one.what == _GLASS and one.clause == item.clause for one in near)


def _of_box(scene: Scene, place: int) -> bool:
    """Does a carton or a frame stand close before it in its clause, and no glass or panel?"""
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    if item.to - item.at > 1:
        return False
    for at in range(item.at - 1, max(item.at - _NEAR, 0) - 1, -1):
        if tokens[at] in _PARTS:
            return False
        if tokens[at] in scene.small.wrappings:
            return not _names_glass(scene, place)
    return False


def _of_strangers(scene: Scene, place: int) -> bool:
    """Is it told of a neighbour's, and behind it of "mine": "one of the neighbour's cracked, mine are perfect"?"""
    item, small = scene.items[place], scene.small
    tokens = scene.tokens[item.field]
    if small.strangers.isdisjoint(tokens[max(item.at - _STRANGERS, 0) : item.at]):
        return False
    return not small.mine.isdisjoint(tokens[item.to : item.to + _MINE])
