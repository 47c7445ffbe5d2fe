"""Which of two figures of one rating is told at standard conditions: "Voc 35 V NOCT, 37 V STC", "Isc at NOCT 11 A ..."?

Each figure has its own conditions beside it, all of them behind their figures or all before.
"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

UNIT_OF = {"voc": "V", "vmp": "V", "isc": "A", "imp": "A", "power": "W"}
_CONDITIONS = {"elsewhere": False, "standard": True}
_JOINING = frozenset(("plus", "range"))  # meanings of "and"
_PARTS = frozenset((",", ";", "|", "/", "\n"))
_ENDS = frozenset((".", "\n"))
STANDARD = frozenset(("stc",))
_TO_FIGURE, _TO_CONDITION, _ONE, _TWINS, _MOST_AMONG = 4, 3, 2, 4, 5


def leave_out_twins(scene: Scene, gone: set[int], standard: dict[str, int]) -> None:
    """Adds places of figures at other conditions, and those of figures at standard ones by name.

    Of a name with a single figure, that one is gone where other conditions stand directly behind it.
    """
    for name, unit in UNIT_OF.items():
        for at in scene.by_what.get(name, ()):
            row = _row(scene, at)
            found = _twins(scene, row, unit)
            if found is not None:
                gone.add(found[1])
                standard.setdefault(name, found[0])
            elif _alone(scene, row, unit):
                gone.add(row[0])


def _row(scene: Scene, place: int) -> list[int]:
    """Places of what may be the two figures of a name and their conditions, which the name itself may begin."""
    before = scene.items[place]
    named = before.to - before.at > 1 and scene.tokens[before.field][before.to - 1] in STANDARD
    row = [place] if named else list[int]()
    for at in range(place + 1, min(place + 1 + _MOST_AMONG + _TWINS, len(scene.items))):
        one = scene.items[at]
        if one.what in _JOINING or (one.at < before.to and one.field == before.field):  # another meaning of the name
            continue
        away = one.at - before.to
        if one.field != before.field or not 0 <= away <= _TO_FIGURE or len(row) == _TWINS:
            break
        if one.what != NUMBER and one.what not in _CONDITIONS:
            break
        if not _ENDS.isdisjoint(scene.tokens[one.field][before.to : one.at]):
            break
        row.append(at)
        before = one
    return row


def _twins(scene: Scene, row: list[int], unit: str) -> tuple[int, int] | None:
    """Places of the figure at standard conditions and of the other one."""
    if len(row) < _TWINS:
        return None
    items = [scene.items[at] for at in row]
    behind = items[0].what == NUMBER
    figures, conditions = (items[::2], items[1::2]) if behind else (items[1::2], items[::2])
    if any(one.what != NUMBER or one.spelled or one.unit not in {"", unit} for one in figures):
        return None
    told = [_CONDITIONS.get(one.what, one is items[0]) for one in conditions]
    if any(one.what == NUMBER for one in conditions) or told[0] == told[1]:
        return None
    if not all(_beside(scene, figure, one) for figure, one in zip(figures, conditions, strict=True)):
        return None
    places = row[::2] if behind else row[1::2]
    return (places[0], places[1]) if told[0] else (places[1], places[0])


def _beside(scene: Scene, figure: Item, told: Item) -> bool:
    """Do only words or a bracket stand between a figure and its conditions?"""
    tokens = scene.tokens[figure.field]
    between = tokens[figure.to : told.at] if figure.at < told.at else tokens[told.to : figure.at]
    return len(between) <= _TO_CONDITION and all(word not in _PARTS and not word[0].isdigit() for word in between)


def _alone(scene: Scene, row: list[int], unit: str) -> bool:
    """As in "Voc 35 V NOCT" where nothing goes on: the conditions head no other figures and tell no degrees."""
    if len(row) != _ONE:
        return False
    figure, told = scene.items[row[0]], scene.items[row[1]]
    if figure.what != NUMBER or figure.unit != unit or told.what != "elsewhere":
        return False
    behind = scene.tokens[told.field][told.to : told.to + 1]
    ends = not behind or behind[0] in _PARTS or behind[0] in _ENDS or behind[0] == ")"
    return ends and _beside(scene, figure, told)
