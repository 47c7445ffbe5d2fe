"""What is assumed where the caller gives nothing? The one table of defaults, and how a row of it is found."""

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType

from service.core.completion.advert_rows import ADVERT_ROWS
from service.core.completion.home_rows import HOME_ROWS, MONEY_ROWS, SITE_ROWS
from service.core.completion.panel_rows import PANEL_ROWS
from service.core.completion.rows import Row
from service.core.completion.set_rows import ARRAY_ROWS, CIRCUIT_ROWS, INVERTER_ROWS
from service.core.completion.storage_rows import STORAGE_ROWS
from service.core.completion.weather_rows import WEATHER_ROWS

_ROWS: tuple[Row, ...] = (
    *SITE_ROWS, *ARRAY_ROWS, *PANEL_ROWS, *INVERTER_ROWS, *CIRCUIT_ROWS, *HOME_ROWS, *MONEY_ROWS, *STORAGE_ROWS,
    *WEATHER_ROWS, *ADVERT_ROWS,
)  # fmt: skip


def default_rows() -> tuple[Row, ...]:
    """Every default with pointer, value or rule, unit, reason code, source and range: what the vocabulary prints.

    >>> [row.value for row in default_rows() if row.pointer == "/money/ageing_share_per_year"]
    [0.005]
    """
    return _ROWS


def _indexed() -> tuple[Mapping[str, Row], Mapping[tuple[str, str], Row]]:
    first: dict[str, Row] = {}
    for row in _ROWS:
        first.setdefault(row.pointer, row)
    return MappingProxyType(first), MappingProxyType({(row.pointer, row.code): row for row in _ROWS})


_FIRST, _BY_CODE = _indexed()


@lru_cache(maxsize=4096)
def pattern_of(pointer: str) -> str:
    """The pointer with ``*`` for each index of a list.

    >>> pattern_of("/arrays/0/panel/weight_kg")
    '/arrays/*/panel/weight_kg'
    """
    return "/".join("*" if part.isdigit() else part for part in pointer.split("/"))


def row_for(pointer: str, code: str | None = None) -> Row:
    """The row of a pointer; by its reason code where there are several.

    Raises:
        KeyError: the table has no such row.
    """
    pattern = pattern_of(pointer)
    return _FIRST[pattern] if code is None else _BY_CODE[pattern, code]
