"""What does a field mean, in a line? The shape of such a line, and the lines on fixing."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any


@dataclass(frozen=True, slots=True)
class Says:
    """The description of a field and one example of its value; None where its neighbours give the example."""

    description: str
    example: Any


FIXING: Mapping[str, Says] = MappingProxyType(
    {
        "building_height_m": Says("Height of the building that the panels hang on, up to its roof edge.", 18),
        "capacity_per_panel_n": Says(
            "Force that the maker states for all fixings of one panel together, square to the panel.", 2400
        ),
        "ballast_per_panel_kg": Says("Weights laid on the frame of one panel.", 40),
        "railing_height_m": Says("Height of the railing that the panels hang on.", 1.1),
        "railing_length_m": Says("Length of the railing that this array's panels share.", 4.2),
    }
)
