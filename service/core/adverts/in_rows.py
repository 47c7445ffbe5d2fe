"""Do two figures with an x between count panels in rows and columns: "row of 3 x 2 panels", "2x2 Module"?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_MOST = 12.0


def rows_of_panels(scene: Scene, first: int, second: int) -> bool:
    """Do the figures at two places count so? They have no unit, and panels stand directly behind the second."""
    one, two = scene.items[first], scene.items[second]
    if two.at != one.to + 1 or one.field != two.field or scene.tokens[one.field][one.to] != "x" or one.glued == "x":
        return False
    if not (_is_number(one) and _is_number(two)):
        return False
    return any(scene.stands(what, two.field, two.to) for what in ("panel_many", "panel_one"))


def counts_in_rows(scene: Scene, counted: list[int]) -> set[int]:
    """Puts rows times columns to the counts; the places of the figures that tell them."""
    found: set[int] = set()
    bare = scene.units.get("", [])
    for number in range(len(bare) - 1):
        first, second = bare[number], bare[number + 1]
        if rows_of_panels(scene, first, second):
            counted.append(int(scene.items[first].value * scene.items[second].value))
            found |= {first, second}
    return found


def _is_number(item: Item) -> bool:
    return (
        item.what == NUMBER and not item.unit and not item.spelled and 1 <= item.value <= _MOST and not item.value % 1
    )
