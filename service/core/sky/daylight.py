"""Which hours of a place have light, and what stands before it whichever way a panel is tilted or turned?

Made once for a place, or for what stands around an array there, and used for any number of planes.
"""

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from service.core.model.facts import Array
from service.core.model.hours import SkyYear
from service.core.sky.cell_layout import SLICE_DEG
from service.core.sky.ground import ground_light, sky_over_ground
from service.core.sky.horizon import above_skyline
from service.core.sky.incidence import direction
from service.core.sky.shade import Shading, shading_of
from service.core.sky.transposition import split_by_anisotropy

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Daylight:
    """A place's hours with light, whatever plane they fall on: made once, used for any number of planes.

    Attributes:
        rows: (n,) which rows of the year they are.
        sun: (3, n) unit vectors to the sun: east, north, up.
        from_sun_w_per_m2: (n,) beam and circumsolar light at right angles to the sun.
        even_sky_w_per_m2: (n,) the rest of the sky's light on level ground.
        ghi_w_per_m2: (n,) all light on level ground, which the ground throws back.
        slice_deg: how wide the slices of the sky are in which obstacles are looked up.
        picked_of: all hours of the place, where these are some of them, or groups; None: these are all.
        means: what was made of all of them before a house so high, kept for the next planes (``before_house``).
        before: the same before the few facades asked about last, by height and azimuth.
    """

    rows: Ints
    sun: Floats
    from_sun_w_per_m2: Floats
    even_sky_w_per_m2: Floats
    ghi_w_per_m2: Floats
    slice_deg: float = SLICE_DEG
    picked_of: "Daylight | None" = None
    means: dict[float, Floats] = field(default_factory=dict, repr=False)
    before: dict[tuple[float, float], Floats] = field(default_factory=dict, repr=False)

    @property
    def whole(self) -> "Daylight":
        """All hours of the place, for what is a mean of them."""
        return self if self.picked_of is None else self.picked_of

    def in_single(self) -> "Daylight":
        """In single precision: what is made of it by ``light_of_planes`` is, too."""
        return replace(
            self,
            sun=self.sun.astype(np.float32),
            from_sun_w_per_m2=self.from_sun_w_per_m2.astype(np.float32),
            even_sky_w_per_m2=self.even_sky_w_per_m2.astype(np.float32),
            ghi_w_per_m2=self.ghi_w_per_m2.astype(np.float32),
        )

    def at(self, hours: Ints) -> "Daylight":
        """Some of these hours, by their number among them."""
        return replace(
            self,
            rows=self.rows[hours],
            sun=self.sun[:, hours],
            from_sun_w_per_m2=self.from_sun_w_per_m2[hours],
            even_sky_w_per_m2=self.even_sky_w_per_m2[hours],
            ghi_w_per_m2=self.ghi_w_per_m2[hours],
            picked_of=self.whole,
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Surroundings:
    """What stands around an array, as far as it does not depend on how the panel is tilted or turned.

    Attributes:
        skyline_open_share: (n,) 1 while the sun stands above the skyline, else 0 (between them for grouped hours).
        sky_over_ground_share: what level ground keeps of an even sky past the skyline.
        shading: the shadows of each hour.
    """

    skyline_open_share: Floats
    sky_over_ground_share: float
    shading: Shading

    def in_single(self) -> "Surroundings":
        """In single precision."""
        shading = self.shading
        return Surroundings(
            skyline_open_share=self.skyline_open_share.astype(np.float32),
            sky_over_ground_share=self.sky_over_ground_share,
            shading=Shading(
                beam_through_share=shading.beam_through_share.astype(np.float32),
                sections_lost_share=shading.sections_lost_share.astype(np.float32),
                hard_time_share=shading.hard_time_share.astype(np.float32),
            ),
        )

    def at(self, hours: Ints) -> "Surroundings":
        """In some of these hours, by their number among them."""
        shading = self.shading
        return Surroundings(
            skyline_open_share=self.skyline_open_share[hours],
            sky_over_ground_share=self.sky_over_ground_share,
            shading=Shading(
                beam_through_share=shading.beam_through_share[hours],
                sections_lost_share=shading.sections_lost_share[hours],
                hard_time_share=shading.hard_time_share[hours],
            ),
        )


def daylight_of(sky: SkyYear) -> Daylight:
    """The hours with light of a year at a place (some 4400 of 8760)."""
    return daylight_at(sky, lit_rows(sky))


def lit_rows(sky: SkyYear) -> Ints:
    """Which rows of the year have light."""
    return np.flatnonzero((sky.ghi_w_per_m2 > 0.0) | (sky.dni_w_per_m2 > 0.0) | (sky.dhi_w_per_m2 > 0.0))


def daylight_at(sky: SkyYear, rows: Ints) -> Daylight:
    """Some rows of the year."""
    zenith = sky.sun_zenith_deg[rows]
    from_sun, even = split_by_anisotropy(
        zenith, sky.dni_w_per_m2[rows], sky.dhi_w_per_m2[rows], sky.extraterrestrial_w_per_m2[rows]
    )
    return Daylight(
        rows=rows,
        sun=direction(zenith, sky.sun_azimuth_deg[rows]),
        from_sun_w_per_m2=from_sun,
        even_sky_w_per_m2=even,
        ghi_w_per_m2=sky.ghi_w_per_m2[rows],
    )


def surroundings_of(array: Array, sky: SkyYear, daylight: Daylight) -> Surroundings:
    """Skyline and shade of an array in the hours with light."""
    rows = daylight.rows
    if array.skyline:
        seen = above_skyline(array.skyline, sky.sun_zenith_deg[rows], sky.sun_azimuth_deg[rows]).astype(np.float64)
    else:
        seen = np.ones(rows.size)
    return Surroundings(
        skyline_open_share=seen,
        sky_over_ground_share=sky_over_ground(array.skyline),
        shading=shading_of(array.shade, sky.calendar.month[rows], sky.calendar.clock_h[rows]),
    )


def open_surroundings(hours: int) -> Surroundings:
    """Nothing around in so many hours."""
    one, nought = np.ones(hours), np.zeros(hours)
    shading = Shading(beam_through_share=one, sections_lost_share=nought, hard_time_share=nought)
    return Surroundings(skyline_open_share=one, sky_over_ground_share=1.0, shading=shading)


def ground_w_per_m2(daylight: Daylight, surroundings: Surroundings) -> Floats:
    """All light on the ground past the skyline, of which nothing throws anything back, (n,)."""
    ghi = daylight.ghi_w_per_m2
    from_sun, from_sky = ground_light(
        daylight.even_sky_w_per_m2, ghi, surroundings.skyline_open_share, surroundings.sky_over_ground_share
    )
    return np.minimum(from_sun + from_sky, ghi)  # rounding alone could lift it
