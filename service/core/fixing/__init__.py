"""What does a storm do to the panels, beside their weight and beside what their fixing is stated to carry?"""

from service.core.fixing.forces import ArrayForces, FixingForces, above_the_standard, fixing_forces, fixing_key
from service.core.fixing.notes import Note
from service.core.fixing.wind import SOURCE, TABLE_4_1, TERRAINS, Roughness, peak_pressure_pa

__all__ = [
    "SOURCE", "TABLE_4_1", "TERRAINS", "ArrayForces", "FixingForces", "Note", "Roughness", "above_the_standard",
    "fixing_forces", "fixing_key", "peak_pressure_pa",
]  # fmt: skip
