"""How should a panel stand?"""

from service.core.tilt.best import best_plane, light_by_face, middle_face
from service.core.tilt.bounds import PlaneBounds, bounds_by_mount, narrowed
from service.core.tilt.scene import year_light_kwh_per_m2

__all__ = [
    "PlaneBounds",
    "best_plane",
    "bounds_by_mount",
    "light_by_face",
    "middle_face",
    "narrowed",
    "year_light_kwh_per_m2",
]
