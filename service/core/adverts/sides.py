"""How long and wide is it, and is a size or weight that of a crate, a cable or a frame beside it?"""

from service.core.adverts.in_rows import rows_of_panels
from service.core.adverts.scene import Scene, measured_in, numbers
from service.core.adverts.walk import NUMBER, Item

Found = dict[str, tuple[float, Item, float]]

_SIDES_MM = (250.0, 2600.0)
_METRE, _NEAR = 1000.0, 4
_OTHERS = frozenset(("packed", "accessory", "other_goods", "lead", "frames"))
_OF_SIZE = frozenset(("weight", "size", "times", "plus"))
_NAMES = frozenset(("length", "width", "thick"))
_OF_SIDES = frozenset(("mm", ""))
_TO_SIDE = 2
_SCALES = frozenset(("size", "weight", "length", "width", "panel_one", "panel_many", "piece"))


def of_a_wrapping(scene: Scene, place: int, item: Item) -> bool:
    """Is a size or weight told of a crate or a thing beside the panels: "crate 1.8 x 1.1 m", "25 kg with packaging"?

    Of a thing only where it stands last before it; of each frame, too.
    """
    if not scene.tells(*_OTHERS):
        return False
    for one in scene.back(place, 4):
        if one.clause != item.clause or item.at - one.to > _NEAR or one.what == NUMBER:
            break
        if one.what in _OTHERS:
            return True
        if one.what in _SCALES:
            break
    behind = [one for one in scene.ahead(place, 4) if one.clause == item.clause and one.at - item.to <= _NEAR]
    told = [one.what for one in behind]
    if "packed" in told or (told[:1] == ["each"] and "accessory" in told[1:2]) or "frames" in told[:1]:
        return True
    return item.unit == "kg" and _behind_its_size(scene, place, item)


def _behind_its_size(scene: Scene, place: int, item: Item) -> bool:
    """Is it the weight of a thing whose size stands before it: "frames are 2000 x 1200 mm and weigh 45 kg"?"""
    sized = False
    for one in scene.back(place, 8):
        if one.clause != item.clause:
            return False
        if one.what in _OTHERS:
            return sized
        if one.what == NUMBER and one.unit in {"mm", ""}:
            sized = True
        elif one.what not in _OF_SIZE:
            return False
    return False


def _counts_behind(one: Item, two: Item) -> bool:
    """Is it one length and a number of pieces: "1.2 m x 2"?"""
    return one.unit == "mm" and one.factor == _METRE and not two.unit and two.value % 1 == 0


def keep_size(scene: Scene, found: Found, longest_mm: float = _SIDES_MM[1]) -> None:
    """Two sides with x or "by" between them; or a length and a width by their names."""
    sized = measured_in(scene, "", "mm")
    for number in range(len(sized) - 1):
        first, second = sized[number], sized[number + 1]
        one, two = scene.items[first], scene.items[second]
        if (
            two.at == one.to + 1
            and one.field == two.field
            and _times(scene, one)
            and not (
                _counts_behind(one, two) or rows_of_panels(scene, first, second) or of_a_wrapping(scene, first, one)
            )
        ):
            third = _third(scene, second, two)
            sides = _sides(one, two, third, longest_mm)
            if sides:
                found["length"], found["width"] = (max(sides), one, 0.95), (min(sides), two, 0.95)
                return
    if "length" in scene.by_what and "width" in scene.by_what:
        named = _named_sides(scene)
        if "length" in named and "width" in named:
            long, wide = named["length"], named["width"]
            (high, one), (low, two) = (long, wide) if long[0] >= wide[0] else (wide, long)
            found["length"], found["width"] = (high, one, 0.93), (low, two, 0.93)


def _times(scene: Scene, one: Item) -> bool:
    sign = scene.tokens[one.field][one.to]
    return sign in {"x", "*"} or scene.stands("times", one.field, one.to)


def _third(scene: Scene, place: int, item: Item) -> Item | None:
    behind = next((one for one in scene.ahead(place, 2) if one.what == NUMBER), None)
    return behind if behind is not None and behind.at - item.to == 1 and _times(scene, item) else None


def _sides(one: Item, two: Item, third: Item | None, longest_mm: float) -> tuple[float, float] | None:
    if one.unit not in _OF_SIDES or two.unit not in _OF_SIDES:
        return None
    unit = two.unit or one.unit
    first, second = one.value, two.value
    low, high = (first, second) if first <= second else (second, first)
    if unit and (not one.unit or not two.unit):  # the unit stands once, behind one of them
        known = one if one.unit else two
        bare = two if one.unit else one
        factor = 1000.0 if known.factor == 1 and bare.value < 10 else known.factor  # "1.762 x 1.134 mm"
        first, second = first * (1.0 if one.unit else factor), second * (1.0 if two.unit else factor)
    elif not unit:
        factor = 1.0
        if third is not None and third.unit == "mm":
            factor = third.factor
        elif high < 3 and low > 0.3:
            factor = 1000.0
        elif high < 250 and low >= 50:
            factor = 10.0
        first, second = first * factor, second * factor
    low, high = (first, second) if first <= second else (second, first)
    return (first, second) if _SIDES_MM[0] <= low and high <= longest_mm and high < 4 * low else None


def _named_sides(scene: Scene) -> dict[str, tuple[float, Item]]:
    """The first figure of each side that a name stands beside: before it, or behind where it heads no other figure."""
    found: dict[str, tuple[float, Item]] = {}
    last: Item | None = None  # the name that belongs to the figure before
    for place in numbers(scene):
        item = scene.items[place]
        if item.unit != "mm" and not (item.unit == "" and item.value >= 300):
            continue
        before, behind = scene.before(place), scene.behind(place)
        if before is not None and (before is last or before.what not in _NAMES or item.at - before.to > _TO_SIDE):
            before = None
        if behind is not None and (behind.what not in _NAMES or behind.at - item.to > 1 or not item.unit):
            behind = None
        name = before or behind
        last = behind if before is None else None
        if name is not None and _SIDES_MM[0] <= item.value <= _SIDES_MM[1]:
            found.setdefault(name.what, (item.value, item))
    return found
