"""Do three digits behind a blank go on with a figure: "1 860 euro", "2 278 x", "1 200,00 zł", "2 000,- Kč"?

Not where the first figure counts: "2 400 W panels", "4 pcs 410 200 zł". Blanks of any width are alike here.
"""

from service.core.adverts.lexicon import Phrases
from service.core.adverts.numerals import Figure
from service.core.adverts.walk import MONEY_UNITS, Walk

_GROUP, _WITH_HUNDREDTHS = 3, 6  # signs
_PRICE_FIELD = 2
_POINTS = frozenset(",.")
_DASHES = frozenset("-=")
_MONEY_SIGNS = frozenset("€£$")
_LIKE_WATTS = (100.0, 720.0)
_NO_UNIT = ("", 1.0, False, False)
_ENDS = frozenset((".", ",", ";", ":", "(", ")", "\n", ""))
_FEWEST, _TOO_MANY, _TO_GOODS = 2, 10, 3
_GOODS = frozenset(("panel_one", "panel_many", "inverter_one", "inverter_many"))
_LARGE = frozenset(("W", "V", "mm"))


def goes_on(  # noqa: PLR0911 - a row of questions
    walk: Walk, figure: Figure, to: int, money: str
) -> bool:
    """Is the piece at ``to`` the rest of a figure of at most three digits? ``money``: the currency before it."""
    words = walk.padded
    if len(figure.raw) > _GROUP or not figure.raw.isdigit() or figure.raw[0] == "0" or walk.glued(to):
        return False
    group, behind = words[to], words[to + 1]
    if len(group) == _WITH_HUNDREDTHS:
        return (group[:_GROUP].isdigit() and group[_GROUP] in _POINTS and not _like_watts(figure, group)
                and _of_money(walk, to, behind, money))  # fmt: skip
    if len(group) != _GROUP or not group.isdigit():
        return False
    unit = walk.lexicon.units.get(behind, _NO_UNIT)[0]
    if money:
        return behind in _MONEY_SIGNS or unit in MONEY_UNITS or unit not in _LARGE  # "£60 420W"
    if unit in MONEY_UNITS or (len(figure.raw) == 1 and behind in {"x", "mm"}):
        return True
    if unit in _LARGE and (group[0] == "0" or (unit == "W" and _of_inverter(walk, figure, to))):
        return True  # "1 000 V": no number begins with a nought; "inverter 2 400 W"
    if dash_behind(walk, to + 1):
        return not _like_watts(figure, group)
    return walk.number == _PRICE_FIELD and not unit


def dash_behind(walk: Walk, at: int) -> int:
    """How many signs of ",-", ".--" or ",=" stand at a piece, instead of hundredths."""
    words = walk.padded
    if words[at] not in _POINTS or words[at + 1] not in _DASHES or not walk.glued(at + 1):
        return 0
    return 2 + (words[at + 2] == words[at + 1] and walk.glued(at + 2))


def _of_money(walk: Walk, to: int, behind: str, money: str) -> bool:
    """Is a figure with hundredths an amount: by its currency, by the field, or by the name of a price before it?"""
    if money or walk.number == _PRICE_FIELD or walk.lexicon.units.get(behind, _NO_UNIT)[0] in MONEY_UNITS:
        return True
    last = walk.items[-1] if walk.items else None
    return last is not None and last.what == "price" and last.clause == walk.clause and to - 1 - last.to <= 1


def _of_inverter(walk: Walk, figure: Figure, to: int) -> bool:
    """Does a figure with a group of three, which are watts, tell the power of the one inverter directly before it?

    Not where goods behind them are counted by the figure: "inverter 2 400 W panels".
    """
    last = walk.items[-1] if walk.items else None
    if last is None or last.what != "inverter_one" or last.to != to - 1 or not _FEWEST <= figure.value < _TOO_MANY:
        return False
    for word in walk.padded[to + 2 : to + 2 + _TO_GOODS]:
        if word in _ENDS or word in walk.small.joining or word in walk.small.coming_with:
            return True
        known = walk.lexicon.known[word]
        if not _GOODS.isdisjoint(
            known.alone if isinstance(known, Phrases) else known if isinstance(known, tuple) else ()
        ):
            return False
    return True


def _like_watts(figure: Figure, group: str) -> bool:
    """May it be a power before an amount: "410 200,00 zł"?"""
    low, high = _LIKE_WATTS
    return low <= figure.value <= high and figure.value % 5 == 0 and group[:_GROUP] != "000"
