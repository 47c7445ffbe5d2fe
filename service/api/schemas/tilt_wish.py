"""How is it asked how a set should stand?"""

from typing import Annotated

from pydantic import Field

from service.api import fields as f
from service.api.schemas.base import In


class TiltBoundsIn(In):
    """Ends that take the place of what the mount allows; an end that is absent stays the mount's.

    Azimuths run clockwise from low to high, so that 315 to 45 passes north.
    """

    low_tilt_deg: f.TiltDeg | None = None
    high_tilt_deg: f.TiltDeg | None = None
    low_azimuth_deg: f.AzimuthDeg | None = None
    high_azimuth_deg: f.AzimuthDeg | None = None


class AllowedPlaneIn(In):
    """One plane that is allowed."""

    tilt_deg: f.TiltDeg
    azimuth_deg: f.AzimuthDeg


class TiltMapIn(In):
    """A map of all planes, in steps of so many degrees."""

    tilt_step_deg: f.TiltStepDeg | None = None
    azimuth_step_deg: f.AzimuthStepDeg | None = None


class TiltWishIn(In):
    """What is asked about the planes.

    Bounds, planes and hinge tilts hold on every path for planes left open; the rest is read by ``/v1/tilt``.
    """

    objective: f.Objective | None = Field(
        default=None, description="What is to be most: energy (the default), energy used at home, or money saved."
    )
    bounds: TiltBoundsIn | None = None
    planes: (
        Annotated[list[AllowedPlaneIn], f.several("The only planes allowed, such as those of a stand.", 1, 50)] | None
    ) = None
    hinge_tilts_deg: Annotated[list[f.TiltDeg], f.several("The only tilts that a hinge has.", 1, 20)] | None = None
    changes_per_year: (
        Annotated[
            list[f.ChangesPerYear],
            Field(
                max_length=3,
                description="For how many planes a year to look for the best; 2 and 4 where absent.",
                examples=[[2, 4]],
            ),
        ]
        | None
    ) = None
    map: TiltMapIn | None = None
