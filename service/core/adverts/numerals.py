"""Which number does a row of digits with points, commas or apostrophes mean?"""

from dataclasses import dataclass

FIRST_YEAR, LAST_YEAR = 1990, 2035  # figures between them may tell when goods were made or put up


@dataclass(frozen=True, slots=True, eq=False)
class Figure:
    """A row of digits: its ``value``; as a ``large`` one, whose three last digits are thousands; and as ``money``.

    ``dated``: two points stand in it, as in a date.
    """

    raw: str
    value: float
    large: float
    money: float
    dated: bool


@dataclass(frozen=True, slots=True, eq=False)
class Heading:
    """A figure that phrases begin with: the words that go on with each of them, and its meanings.

    ``seconds``: the words that may stand behind it.
    """

    figure: Figure
    seconds: frozenset[str]
    phrases: tuple[tuple[tuple[str, ...], tuple[str, ...]], ...]


def figure_of(raw: str) -> Figure:
    """What a row of digits may mean; what stands beside it tells which."""
    if raw.isdigit():
        return Figure(raw, *(float(raw),) * 3, dated=False)
    return Figure(raw, plain_number(raw), plain_number(raw, large=True), money_of(raw), dated=raw.count(".") == 2)


def plain_number(raw: str, *, large: bool = False) -> float:
    """A figure with point or comma; three digits behind it are thousands where the unit asks for a large number.

    >>> plain_number("38,5", large=True), plain_number("1.722", large=True), plain_number("0,395", large=True)
    (38.5, 1722.0, 0.395)
    """
    if raw.isdigit():
        return float(raw)
    parts = raw.replace("'", ",").replace(",", ".").split(".")
    thousands = len(parts) > 2 or (large and len(parts[1]) == 3 and parts[0] not in {"0", "00"})
    return float("".join(parts)) if thousands else float(parts[0] + "." + parts[1])


def money_of(raw: str) -> float:
    """An amount: two digits at the end are hundredths, three are thousands.

    >>> money_of("1.860"), money_of("60,00"), money_of("1,650.50")
    (1860.0, 60.0, 1650.5)
    """
    if raw.isdigit():
        return float(raw)
    parts = raw.replace("'", ",").replace(",", ".").split(".")
    if len(parts) > 1 and len(parts[-1]) != 3:
        return float("".join(parts[:-1]) + "." + parts[-1])
    return float("".join(parts))
