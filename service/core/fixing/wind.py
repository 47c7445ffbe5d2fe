"""How hard does the strongest gust of fifty years press, at a height, over a terrain?

EN 1991-1-4:2005 with A1:2010, clauses 4.3 to 4.5: 10-minute mean wind by a logarithmic profile, turbulence on top.
No hill, ridge or neighbouring tower is counted (orography factor 1), nor that wind comes from some sides less often.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import log
from types import MappingProxyType

SOURCE = (
    "EN 1991-1-4:2005+A1:2010, clauses 4.3 to 4.5 (equations 4.3 to 4.8, table 4.1), clause 7 for the coefficients, "
    "from memory; no national annex"
)
AIR_KG_PER_M3 = 1.25  # clause 4.5 (1), note 2: recommended value
PEAK_FACTORS = 7.0  # equation 4.8: twice the peak factor of 3.5
ROUGHNESS_OF_II_M = 0.05
# Clause 4.3.2 (1): the profile holds up to here; above it is carried on, and that is said.
HIGHEST_M = 200.0


@dataclass(frozen=True, slots=True)
class Roughness:
    """One line of table 4.1: terrain category, roughness length, and the height below which nothing grows less."""

    category: str
    length_m: float
    least_height_m: float


TABLE_4_1: Mapping[str, Roughness] = MappingProxyType(
    {
        "0": Roughness("0", 0.003, 1.0),
        "I": Roughness("I", 0.01, 1.0),
        "II": Roughness("II", 0.05, 2.0),
        "III": Roughness("III", 0.3, 5.0),
        "IV": Roughness("IV", 1.0, 10.0),
    }
)
# The words of a request, smoothest first.
TERRAINS: Mapping[str, Roughness] = MappingProxyType(
    {
        "open_sea": TABLE_4_1["0"],
        "open_land": TABLE_4_1["II"],
        "suburb": TABLE_4_1["III"],
        "city": TABLE_4_1["IV"],
    }
)


def peak_pressure_pa(basic_wind_m_per_s: float, height_m: float, roughness: Roughness) -> float:
    """Peak velocity pressure qp in Pa.

    Args:
        basic_wind_m_per_s: basic wind velocity, a 10-minute mean 10 m above open land, met once in fifty years.
        height_m: height above the ground; below the terrain's least height that one counts.
        roughness: the terrain.

    >>> round(peak_pressure_pa(27.0, 3.5, TABLE_4_1["I"]))
    989
    """
    factor = 0.19 * (roughness.length_m / ROUGHNESS_OF_II_M) ** 0.07
    profile = log(max(height_m, roughness.least_height_m) / roughness.length_m)
    mean_m_per_s: float = factor * profile * basic_wind_m_per_s
    return (1 + PEAK_FACTORS / profile) * 0.5 * AIR_KG_PER_M3 * mean_m_per_s**2
