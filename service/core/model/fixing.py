"""What is known of what holds the panels, and of what they are held on?"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixing:
    """The fixing of one array's panels; None is "nobody said" and never a guess that something holds.

    ``building_height_m``: of the building that the panels hang on, to its roof edge; None where there is none.
    ``capacity_per_panel_n``: the force that the maker states for all fixings of one panel together.
    ``ballast_per_panel_kg``: weights laid on a frame. ``railing_height_m``, ``railing_length_m``: of the railing.
    ``low_lean_out_deg`` to ``high_lean_out_deg``: how far from upright it lets a panel lean out.
    """

    building_height_m: float | None = None
    capacity_per_panel_n: float | None = None
    ballast_per_panel_kg: float | None = None
    railing_height_m: float | None = None
    railing_length_m: float | None = None
    low_lean_out_deg: float | None = None
    high_lean_out_deg: float | None = None

    @property
    def leans_out(self) -> bool:
        """Did anybody say how far a panel may lean out?"""
        return self.low_lean_out_deg is not None or self.high_lean_out_deg is not None
