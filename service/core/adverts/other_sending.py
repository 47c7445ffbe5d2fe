"""Which words for sending tell of no sending of the goods?

As in "delivery: collection only", "4er Paket", "post code", "will post pictures", "delivered in 2022"; and of which no
amount behind them is the cost: "no shipping £60", "envío no incluido 420 W 60 €".
"""

from service.core.adverts.asked_roles import PICTURES
from service.core.adverts.numerals import FIRST_YEAR, LAST_YEAR
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_SENDING = frozenset(("shipping", "delivered", "sent", "bring"))
_COUNTED = ("panel_", "inverter_", "set_")
_HEADS = frozenset(":=")
_ENDS = frozenset(",;|(")
_TO_PICKUP, _TO_PICTURES, _TO_YEAR, _TO_GOODS = 3, 4, 6, 3
_FIRST_YEARS = 4  # figures of a year


def leave_out_other_sending(scene: Scene) -> None:
    """Such words mean nothing here; what is refused or comes on top has no amount behind it for its cost."""
    known = scene.by_what
    if known.keys().isdisjoint(_SENDING):
        return
    pictured = bool(scene.roles & PICTURES)
    gone = {place for what in known.keys() & _SENDING for place in known[what]
            if _of_no_sending(scene, place, pictured=pictured)}  # fmt: skip
    if gone:
        _forget(scene, gone)
    if "shipping" in known and ("without" in known or "gone" in known):
        _part_from_amounts(scene)


def _part_from_amounts(scene: Scene) -> None:
    """What is refused or comes on top heads no amount; what "no" stood beside it denies nothing else."""
    refused: set[int] = set()
    for place in scene.by_what["shipping"]:
        denial, apart = _denied_before_figure(scene, place)
        if denial is None:
            continue
        scene.items[place].what = scene.whats[place] = "sending_apart"
        if denial.what == "without" and not apart:
            denial.what = "refused"
            refused.add(place)
    if refused:
        _forget(scene, refused)
        scene.by_what["refused"] = sorted({*scene.by_what.get("refused", []), *refused})


def _forget(scene: Scene, gone: set[int]) -> None:
    for what in _SENDING:
        if what in scene.by_what:
            kept = [place for place in scene.by_what[what] if place not in gone]
            if kept:
                scene.by_what[what] = kept
            else:
                del scene.by_what[what]
    for place in gone:
        scene.items[place].what = scene.whats[place] = "other_sending"


def _of_no_sending(scene: Scene, place: int, *, pictured: bool) -> bool:
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    follow = tokens[item.to] if item.to < len(tokens) else ""
    if follow in scene.small.post_behind:  # "post code"
        return True
    if tokens[item.to - 1] in scene.small.parcel and _of_goods(scene, place, item, tokens):
        return True
    if follow in _HEADS and _pickup_behind(scene, place, item, tokens):
        return True
    return (pictured and _of_pictures(scene, item, tokens)) or _in_the_past(scene, place, item)


def _of_goods(scene: Scene, place: int, item: Item, tokens: list[str]) -> bool:
    """Is it a parcel of goods that is sold: "Paket aus 2 Modulen", "4er Paket", "colis de 2 panneaux"?"""
    before = tokens[item.at - 1] if item.at else ""
    if before in scene.small.after_figure:
        return True
    for one in scene.ahead(place, 4):
        if one.at < item.to:
            continue
        between = tokens[item.to : one.at]
        if one.clause != item.clause or not scene.small.sets_by.issuperset(between):
            return False
        if one.what.startswith(_COUNTED):
            return True
        if one.what == NUMBER:
            goods = any(two.what.startswith((*_COUNTED, "piece")) and 0 <= two.at - one.to < _TO_GOODS
                        for two in scene.ahead(place, 6) if two.at >= one.to)  # fmt: skip
            return not one.unit and one.value % 1 == 0 and goods
    return False


def _pickup_behind(scene: Scene, place: int, item: Item, tokens: list[str]) -> bool:
    """Is the heading for sending followed by fetching: "Versand: Selbstabholung"?"""
    for one in scene.ahead(place, 4):
        if one.at <= item.at:
            continue
        if one.clause == item.clause and one.what == "pickup":
            return one.at - item.to <= _TO_PICKUP and scene.small.sending_or.isdisjoint(
                [word for word in tokens[one.to : one.to + 1] if word not in _ENDS]
            )
        if one.what != "place":
            return False
    return False


def _of_pictures(scene: Scene, item: Item, tokens: list[str]) -> bool:
    """Are pictures sent: "will post more pictures", "Bilder schicke ich gern"?"""
    small = scene.small
    for word in tokens[item.to : item.to + _TO_PICTURES]:
        if word in small.pictures:
            return True
        if word not in small.pictures_joining:
            break
    at = item.at - 1
    while at >= 0 and (tokens[at] in small.pictures_joining or tokens[at] == "'"):
        at -= 1
    told = at >= 0 and (tokens[at] in small.pictures or (tokens[at] == "s" and tokens[at - 1] == "'"))
    joined = at < item.at - 1 or (item.to < len(tokens) and tokens[item.to] in small.pictures_joining)
    return told and joined


def _in_the_past(scene: Scene, place: int, item: Item) -> bool:
    """Is it told when they were sent to the seller: "delivered in 2022"?"""
    for one in scene.ahead(place, 8):
        if one.clause != item.clause or one.at - item.to > _TO_YEAR or one.what in {"possible", "pickup"}:
            return False
        if one.what == NUMBER and one.at >= item.to:
            year = not one.unit and not one.glued and one.value % 1 == 0 and FIRST_YEAR <= one.value <= LAST_YEAR
            return year and len(scene.tokens[one.field][one.at]) == _FIRST_YEARS
    return False


def _denied_before_figure(scene: Scene, place: int) -> tuple[Item | None, bool]:
    """What says "no" where a figure follows directly; and whether sending is only not in the price."""
    item, tokens = scene.items[place], scene.tokens[scene.items[place].field]
    before, at, apart = scene.before(place), item.to, False
    denial = before if before is not None and before.what == "without" and before.to == item.at else None
    ahead = scene.ahead(place, 5)
    for one in ahead:
        if one.at >= item.to and one.what in {"without", "gone"} and one.at == item.to:
            denial, at = one, one.to
            break
    while denial is not None and at < len(tokens) and tokens[at] in scene.small.included:
        at, apart = at + 1, True
    behind = next((one for one in ahead if one.at >= at), None)
    if denial is None or behind is None or behind.what != NUMBER or not behind.unit or behind.clause != item.clause:
        return None, False
    signs_only = all(not sign.isalnum() for sign in tokens[at : behind.at])
    return (denial if signs_only else None), apart
