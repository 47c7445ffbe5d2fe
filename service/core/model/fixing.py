"""What is known of what holds the panels, and of what they are held on?"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixing:
    """The fixing of one array's panels; None is "nobody said" and never a guess that something holds.

    ``building_height_m``: of the building that the panels hang on, to its roof edge; None where there is none.
    ``capacity_per_panel_n``: the force that the maker states for all fixings of one panel together.
    ``ballast_per_panel_kg``: weights laid on a frame. ``railing_height_m``, ``railing_length_m``: of the railing.
    """

    building_height_m: float | None = None
    capacity_per_panel_n: float | None = None
    ballast_per_panel_kg: float | None = None
    railing_height_m: float | None = None
    railing_length_m: float | None = None
