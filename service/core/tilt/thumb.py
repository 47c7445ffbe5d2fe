"""What do the rules of thumb say, to be shown beside what was computed?"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

# Day of the year from 0, and a tilt.
Steps = tuple[tuple[int, float], ...]

_PAPER = "Jacobson and Jadhav, Solar Energy 169 (2018) 55-66, fit by latitude; coefficients from secondary sources"
_PRACTICE = "common practice, ascribed to C. Landau, 25 to 50 degrees of latitude"


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleOfThumb:
    """A rule applied to a place: one tilt, or several with the days from which they hold, towards the equator."""

    code: str
    source: str
    azimuth_deg: float
    steps: Steps


def fitted_tilt_deg(latitude_deg: float) -> float:
    """The third-order fit of Jacobson and Jadhav (2018) of the best fixed tilt, 0 at least.

    >>> round(fitted_tilt_deg(44.0), 2), round(fitted_tilt_deg(-34.0), 2)
    (33.2, 29.53)
    """
    x = latitude_deg
    north = 1.3793 + x * (1.2011 + x * (-0.014404 + x * 0.000080509))
    south = -0.41657 + x * (1.4216 + x * (0.024051 + x * 0.00021828))
    return max(north if x >= 0 else -south, 0.0)


def _fixed(latitude_deg: float) -> Steps:
    return ((0, 0.76 * latitude_deg + 3.1),)


def _two(latitude_deg: float) -> Steps:
    return ((88, 0.93 * latitude_deg - 21.0), (252, 0.875 * latitude_deg + 19.2))


def _four(latitude_deg: float) -> Steps:
    middle = 0.98 * latitude_deg - 2.3
    return ((63, middle), (107, 0.92 * latitude_deg - 24.3), (235, middle), (279, 0.89 * latitude_deg + 24.0))


# 30 March and 10 September were read; 5 March, 18 April, 24 August and 7 October are from memory.
_RULES: Mapping[str, tuple[str, Callable[[float], Steps]]] = MappingProxyType(
    {
        "latitude_fixed": (_PRACTICE, _fixed),
        "latitude_two": (_PRACTICE, _two),
        "latitude_four": (f"{_PRACTICE}; its days from memory", _four),
    }
)
_FROM_LATITUDE, _TO_LATITUDE = 25.0, 50.0
_HALF_YEAR_DAYS = 182


def rules_of_thumb(latitude_deg: float) -> tuple[RuleOfThumb, ...]:
    """The rules that claim to hold at this latitude; in the south half a year later.

    >>> [round(tilt, 2) for _, tilt in rules_of_thumb(40.0)[2].steps]
    [16.2, 54.2]
    """
    azimuth = 180.0 if latitude_deg >= 0 else 0.0
    away = abs(latitude_deg)
    found = [RuleOfThumb(code="fit", source=_PAPER, azimuth_deg=azimuth, steps=((0, fitted_tilt_deg(latitude_deg)),))]
    if _FROM_LATITUDE <= away <= _TO_LATITUDE:
        for code, (source, steps) in _RULES.items():
            later = [(day if latitude_deg >= 0 else (day + _HALF_YEAR_DAYS) % 365, tilt) for day, tilt in steps(away)]
            found.append(RuleOfThumb(code=code, source=source, azimuth_deg=azimuth, steps=tuple(sorted(later))))
    found.append(
        RuleOfThumb(
            code="tilt_is_latitude",
            source="common practice",
            azimuth_deg=azimuth,
            steps=((0, min(away, 90.0)),),
        )
    )
    return tuple(found)
