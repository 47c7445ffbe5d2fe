"""What must a multimeter read at the seller's door, and what does it say of the panel?"""

from service.core.pickup.check import Expected, PanelSeen, expected_at, panels_seen, swapped_columns
from service.core.pickup.electric import is_enough_light
from service.core.pickup.facts import (
    Between,
    Cause,
    Door,
    Light,
    Multimeter,
    PanelReading,
    Quantity,
    Ratings,
    Seen,
    cause,
)
from service.core.pickup.how import Told, how_to_measure, most_current_a, what_to_look_at
from service.core.pickup.light import (
    hours_of_good_light,
    light_indoors,
    light_not_known,
    light_of_sky,
    measured_light,
)
from service.core.pickup.ratings import cells_from_halves, ratings_of, stand_in_power_w
from service.core.pickup.remarks import (
    another_day,
    cells_unlike_air,
    less_light_than_told,
    light_told_twice,
    names_alike,
    remarks_on,
    size_unlike_power,
)
from service.core.pickup.warmth import cells_of
from service.core.pickup.worth import WorthNow

__all__ = [
    "Between",
    "Cause",
    "Door",
    "Expected",
    "Light",
    "Multimeter",
    "PanelReading",
    "PanelSeen",
    "Quantity",
    "Ratings",
    "Seen",
    "Told",
    "WorthNow",
    "another_day",
    "cause",
    "cells_from_halves",
    "cells_of",
    "cells_unlike_air",
    "expected_at",
    "hours_of_good_light",
    "how_to_measure",
    "is_enough_light",
    "less_light_than_told",
    "light_indoors",
    "light_not_known",
    "light_of_sky",
    "light_told_twice",
    "measured_light",
    "most_current_a",
    "names_alike",
    "panels_seen",
    "ratings_of",
    "remarks_on",
    "size_unlike_power",
    "stand_in_power_w",
    "swapped_columns",
    "what_to_look_at",
]
