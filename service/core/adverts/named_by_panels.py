"""Is an inverter named with the word for what it is for: "Onduleur panneaux solaires 600 W", "Omvormer zonnepanelen"?

In such a title the panels stand directly behind the inverter, and nowhere else are any told of that are no purpose.
"""

from service.core.adverts.walk import INVERTERS, NUMBER, PANELS, Item

_PURPOSE = frozenset(("for", "takes", "used_beside", "without"))
_OF_PANELS = frozenset(("voc", "vmp", "cells", "t:mono", "t:poly", "bifacial", "set_one", "set_many"))
_JOINING = frozenset("+&/,")
_BACK = 4


def without_panels_of_name(
    items: list[Item], by_what: dict[str, list[int]], fields: tuple[list[str], list[str]]
) -> list[Item]:
    """The items without those panels, if the title names its inverter so; else the same row."""
    at = next((at for at in by_what["inverter_one"] if not items[at].field), None)
    if at is None or not _OF_PANELS.isdisjoint(by_what) or any(one.peak for one in items if one.what == NUMBER):
        return items
    to = items[at].to
    behind = at + 1
    while behind < len(items) and items[behind].at < to and not items[behind].field:
        behind += 1
    if behind >= len(items) or not _named(items, at, behind, fields[0]):
        return items
    panels = [place for what in by_what.keys() & PANELS for place in by_what[what]]
    if all(place == behind or _is_purpose(items, place) for place in panels):
        return items[:behind] + items[behind + 1 :]
    return items


def _named(items: list[Item], at: int, behind: int, title: list[str]) -> bool:
    """Are panels directly behind the inverter, the first goods of the title, and nothing joined to them?"""
    inverter, panel = items[at], items[behind]
    if panel.what not in PANELS or panel.field or panel.at != inverter.to or inverter.clause != panel.clause:
        return False
    if any(one.what in PANELS or one.unit == "W" for one in items[:at]):
        return False
    return _JOINING.isdisjoint(title[panel.to :]) and not any(
        one.what in INVERTERS and not one.field for one in items[behind:]
    )


def _is_purpose(items: list[Item], place: int) -> bool:
    panel = items[place]
    return any(one.what in _PURPOSE and one.clause == panel.clause for one in items[max(place - _BACK, 0) : place])
