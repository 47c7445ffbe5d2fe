"""What falls on planes in a place's hours with light, and how warm are the cells, as an input's table wants it?"""

from collections.abc import Callable
from dataclasses import dataclass

from service.core.energy.kernel.place import Singles
from service.core.model.hours import Floats, Ints

Exactly = Callable[[int, Ints], tuple[Floats, Floats]]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Light:
    """Light and heat of m planes in the hours with light, (m, n) each, in the steps of an input's table.

    Attributes:
        nodes: effective irradiance behind glass and dirt, in nodes.
        steps: cell temperature, in steps from the coldest and a half: its whole part is the nearest.
        first_of_day: of the place's record.
        exactly: effective irradiance (k,) W/m2 and cell temperature (k,) C of one of the planes in k of the hours, in
            double precision and from no table.

    Beyond the table (1500 W/m2, -50 and 115 C) its edge counts.
    """

    nodes: Singles
    steps: Singles
    first_of_day: Ints
    exactly: Exactly
