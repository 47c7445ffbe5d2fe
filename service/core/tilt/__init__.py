"""How should a panel stand?"""

from service.core.tilt.advice import (
    Chosen,
    TiltAdvice,
    tilt_advice,
)
from service.core.tilt.best import best_listed, best_plane, faces_beside, light_beside, light_by_face, middle_face
from service.core.tilt.bounds import PlaneBounds, bounds_by_mount, narrowed
from service.core.tilt.facade import Facade, facade_to_hold, shares_a_front
from service.core.tilt.facing import Facing, Obstacle, SunSeen, facing_of
from service.core.tilt.home import YearAtHome
from service.core.tilt.moving import Schedule, Step
from service.core.tilt.near import NearBest, PlaneMap
from service.core.tilt.scene import year_light_kwh_per_m2
from service.core.tilt.stand import Stand, stand_key, stand_of
from service.core.tilt.sums import OBJECTIVES
from service.core.tilt.thumb import RuleOfThumb, fitted_tilt_deg, rules_of_thumb
from service.core.tilt.thumb_here import RuleHere
from service.core.tilt.wish import (
    AT_RAILING_OR_WALL,
    MAY_LEAN,
    TiltWish,
    open_bounds,
    places_wished,
    stands_before_a_facade,
)

__all__ = [
    "AT_RAILING_OR_WALL",
    "MAY_LEAN",
    "OBJECTIVES",
    "Chosen",
    "Facade",
    "Facing",
    "NearBest",
    "Obstacle",
    "PlaneBounds",
    "PlaneMap",
    "RuleHere",
    "RuleOfThumb",
    "Schedule",
    "Stand",
    "Step",
    "SunSeen",
    "TiltAdvice",
    "TiltWish",
    "YearAtHome",
    "best_listed",
    "best_plane",
    "bounds_by_mount",
    "facade_to_hold",
    "faces_beside",
    "facing_of",
    "fitted_tilt_deg",
    "light_beside",
    "light_by_face",
    "middle_face",
    "narrowed",
    "open_bounds",
    "places_wished",
    "rules_of_thumb",
    "shares_a_front",
    "stand_key",
    "stand_of",
    "stands_before_a_facade",
    "tilt_advice",
    "year_light_kwh_per_m2",
]
