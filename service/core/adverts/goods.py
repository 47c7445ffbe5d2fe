"""What is offered: panels, inverters, a set, something else; is it an offer; how many pieces?"""

from dataclasses import dataclass

from service.core.adverts.lexemes import CURRENCIES, Item
from service.core.adverts.scene import Scene, numbers

_GOODS = {"panel_one": "panel", "panel_many": "panel", "inverter_one": "inverter", "inverter_many": "inverter",
          "set_one": "set", "set_many": "set"}  # fmt: skip
_MOSTPIECES = 5000
_FIRST_WORDS = 4


@dataclass(frozen=True, slots=True)
class Goods:
    """Kind, offer or not, pieces."""

    kind: str
    is_offer: bool
    quantity: int | None
    why: str | None


def goods_of(scene: Scene) -> Goods:
    """Kind, offer and quantity; ``why`` is the doubt that goes with goods that are no panels, inverters or sets."""
    kind, why = _kind(scene)
    if _wanted(scene):
        return Goods(kind, False, None, "wanted_ad")
    if kind == "other" and "service" in scene.by_what and why is None:
        return Goods("other", False, None, "service")
    served = [scene.items[at] for at in scene.by_what.get("service", ())]
    if any(one.field == 0 for one in served):
        return Goods("other", False, None, "service")
    if served and not any(i.unit in CURRENCIES or i.unit == "W" for i in scene.items):
        return Goods("other", False, None, "service")
    described = len(scene.items) > 0 or bool(scene.price)
    if kind == "other" and why is None:
        return Goods("other", bool(scene.price), None, "nothing_described")
    return Goods(kind, described, _quantity(scene, kind), why)


def _wanted(scene: Scene) -> bool:
    spoiled = {scene.items[at].sentence for at in scene.by_what.get("wanted_not", ())}
    for at in scene.by_what.get("wanted", ()):
        item = scene.items[at]
        first = next(one for one in scene.items if one.sentence == item.sentence)
        if item.sentence not in spoiled and (item.at < _FIRST_WORDS or (item.field == 0 and first is item)):
            return True
    return False


def _kind(scene: Scene) -> tuple[str, str | None]:  # noqa: C901, PLR0911 - a row of questions, each with its answer
    found: dict[str, list[Item]] = {}
    for place, item in enumerate(scene.items):
        good = _GOODS.get(item.what)
        if good and not scene.denied(place) and not _purpose(scene, place):
            found.setdefault(good, []).append(item)
    titled = {good for good, items in found.items() if any(item.field == 0 for item in items)}
    if "thermal" in scene.by_what and "inverter" not in found and not _rated(scene):
        return "other", "not_photovoltaic"
    other = scene.by_what.get("other_goods", [])
    if other and not titled & {"inverter", "set"}:
        first = scene.items[other[0]]
        if (first.field == 0 and "panel" not in titled) or (not titled and not found) or not _rated(scene):
            return "other", "other_goods"
    if "panel" in found and "inverter" in found:
        if titled == {"panel"} and not _with_inverter(scene):
            return "panel", None
        if titled == {"inverter"}:
            return "inverter", None
        if "set" in found or len(titled) > 1 or _with_inverter(scene):
            return "set", None
    if "set" in titled or ("set" in found and not {"panel", "inverter"} & titled):
        return "set", None
    for good in ("inverter", "panel", "set"):
        if good in titled:
            return good, None
    best = max(found, key=lambda good: (len(found[good]), good == "panel"), default=None)
    return (best, None) if best else ("other", None)


def _purpose(scene: Scene, place: int) -> bool:
    """Does "for" stand close before it: "for two panels"?"""
    item = scene.items[place]
    return any(one.what == "for" and 0 <= item.at - one.to <= 2 for one in scene.back(place, 4))


def _with_inverter(scene: Scene) -> bool:
    for at in (*scene.by_what.get("inverter_one", ()), *scene.by_what.get("inverter_many", ())):
        if scene.denied(at) or _purpose(scene, at):
            continue
        near = list(scene.back(at, 5))
        if any(one.what == "plus" and scene.items[at].at - one.to <= 4 for one in near):
            return True
        if any(_GOODS.get(one.what) == "panel" for one in near):
            return True
    return False


def _rated(scene: Scene) -> bool:
    return any(scene.items[at].unit == "W" for at in numbers(scene)) or "voc" in scene.by_what


def _quantity(scene: Scene, kind: str) -> int | None:
    names = {"panel": ("panel_many", "panel_one"), "inverter": ("inverter_many", "inverter_one"),
             "set": ("set_many", "set_one"), "other": ("other_goods", "other_goods")}[kind]  # fmt: skip
    counts: list[int] = []
    for place, item in enumerate(scene.items):
        count = _count(item)
        if count and _counts(scene, place, names):
            counts.append(count)
    if counts:
        return max(counts) if kind != "set" else counts[0]
    if kind == "set":
        return None if "set_many" in scene.by_what else 1
    if "several" in scene.by_what:
        return None
    many, one = scene.by_what.get(names[0], []), scene.by_what.get(names[1], [])
    many = [at for at in many if not _purpose(scene, at)]
    if kind == "other":
        return 1 if "thermal" in scene.by_what and "panel_one" in scene.by_what else None
    return 1 if one and not many else None


def _count(item: Item) -> int | None:
    if item.what[:2] == "n:":
        return int(item.what[2:])
    if item.what == "#" and not item.unit and item.value == int(item.value) and 0 < item.value <= _MOSTPIECES:
        return int(item.value)
    return None


def _counts(scene: Scene, place: int, names: tuple[str, ...]) -> bool:  # noqa: PLR0911 - a row of questions
    """Is it a number of pieces: followed by the goods, by "pieces", by x, or with x before it?"""
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    follow = tokens[item.to : item.to + 2]
    if item.what == "#" and item.glued in {"-", "/", ".", "x"} and not (item.glued == "x" and not _sized(tokens, item)):
        return False
    if item.what == "#" and item.glued == "x":
        return True
    if any(one.what in {"for", "tier", "minimum"} for one in scene.back(place, 2)
           if item.at - one.to <= 1):  # fmt: skip
        return False
    if follow[:1] == ["x"] and item.what == "#":
        behind = tokens[item.to + 1 : item.to + 2]
        return not behind or not behind[0][0].isdigit() or _power_behind(scene, place)
    if follow[:1] and follow[0] in PIECES and item.what == "#":
        return True
    for one in scene.ahead(place, 6):
        if one.what in {"each", "lot"} or (item.value >= 100 and one.what.endswith("_one")):
            return False
        if one.what in names and (one.at - item.to <= 3 or (one.at - item.to <= 4 and one.clause == item.clause)):
            return not any(between.unit in CURRENCIES for between in scene.ahead(place, 2) if between.at < one.at)
        if one.clause != item.clause or one.at - item.to > 4 or one.unit in CURRENCIES:
            return False
    return False


PIECES = frozenset(("stuck", "stueck", "stk", "stuks", "st", "pcs", "pieces", "pieza", "piezas", "pezzi", "pz", "sztuk",
                     "szt", "sztuki", "ks", "kusu", "kusy", "off", "available", "avail", "unidades", "uds", "ud",
                     "pieces", "unites", "unita", "un"))  # fmt: skip


def _sized(tokens: list[str], item: Item) -> bool:
    return item.at >= 2 and tokens[item.at - 2][0].isdigit()


def _power_behind(scene: Scene, place: int) -> bool:
    behind = next(scene.ahead(place, 1), None)
    return behind is not None and behind.what == "#" and behind.unit == "W"
