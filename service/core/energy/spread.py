"""Why is the year's energy uncertain, and by how much? One part for each reason, each with its number and source.

All numbers are relative standard deviations of the yearly sum. Over several arrays a reason is taken as common to all
(the same sky, the same make, the same mistake), so its parts are averaged by energy.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from math import cos, hypot, radians, sin, sqrt

from service.core.energy.otherwise import BEHIND_A_RAIL
from service.core.model.assumption import Assumptions
from service.core.model.band import Z_90, Z_95, SpreadPart, combined_sd_share
from service.core.model.climate import PlaceClimate
from service.core.model.facts import Array, Panel
from service.core.sky import REAR_OPENNESS, rear_openness

# A flash test is sure to 2 to 3 % at 95 % (laboratories' own figures, from memory): half of 2.5 %.
FLASH_TEST_SD = 0.0125
# Second-hand panels: bought on their label, with cracks, worn contacts and mixed lots that none sees; one of which
# nobody says that it is unused may be such a one. Judgement.
USED_SD = 0.04
# Rates of silicon panels spread by about 0.4 % a year around their median (Jordan et al., Progress in Photovoltaics 24
# (2016) 978-989: median 0.5 to 0.6, mean 0.8 to 0.9); the first days' loss is 1 to 2 %: 1 % here. Judgement.
# Of an age that nobody told the years from which it may be count at the median rate.
AGEING_SD_PER_YEAR, FIRST_DAYS_SD, MOST_AGEING_SD, AGEING_SHARE_PER_YEAR = 0.004, 0.01, 0.15, 0.005
# An upright plane yields 6 % more or less for each 0.1 of ground reflectance (own runs, design of this service).
UPRIGHT_SHARE_PER_REFLECTANCE = 0.6
# Light measured on the plane holds the ground's; how askew that meets the glass moves an upright plane by up to 1 % for
# each 0.1 (own runs; leaning ones less).
MEASURED_SHARE_PER_REFLECTANCE = 0.1
REFLECTANCE_SD_GIVEN, REFLECTANCE_SD_ASSUMED = 0.03, 0.06  # judgement: surfaces range from 0.1 to 0.35 without snow
# Dirt: half of what was assumed, and at least 1 %: judgement.
DIRT_SD_OF_SHARE, LEAST_DIRT_SD = 0.5, 0.01
# What stands around is drawn with a shaking hand: a quarter of what it takes, and at least 2 %. Judgement.
SHADE_SD_OF_LOSS, LEAST_SHADE_SD = 0.25, 0.02
# Made-up hours and the turn from level ground to plane, against 15 German test reference years: 2.0 % at 35 degrees
# south, 2.9 % upright south; root mean square of upright east and west at eight stations 3.2 and 2.3 %. Panel and
# inverter model: 1.5 %, judgement (power coefficients of the public list).
MODEL_SD_TILTED, MODEL_SD_UPRIGHT, MODEL_SD_ELECTRIC = 0.020, 0.029, 0.015
# A plane that nobody told. Upright, east or west gives 75 to 80 % of south: 10 % if the side is open, and less in
# proportion to the sine of the tilt on what faces as the house does. Elsewhere the plane was chosen as best and is flat
# around there: 3 %. Of an unknown mount the panel stands free in the middle, as well as it can, and may hang upright
# off south: what that costs lies at the cautious end; where it is not reckoned, 15 %. It cools as well as any there, so
# that no more comes by another mount; what the one costs that cools least lies at the cautious end, too. Judgement.
AZIMUTH_SD_UPRIGHT, AZIMUTH_SD, TILT_SD, MOUNT_SD = 0.10, 0.03, 0.03, 0.15
# What the rear of two-sided panels adds is known to half of it: judgement, shadow and facade are guessed.
REAR_SD_OF_GAIN = 0.5
# What snow takes is known to a factor of two: places equally cold get little of it or much. Judgement.
SNOW_SD_OF_LOSS = 0.7
# Points of the datasheet that nobody told. The year of 110 panels of the public list (220 to 460 W, wafers), completed
# from their power alone against their own sheet: sd 1.2 % upright, 1.0 % tilted; with open-circuit voltage and
# short-circuit current told, 0.8 %; with all but the coefficients, 0.5 %, which is not counted (own runs).
OUTER_POINTS_SD, INNER_POINTS_SD = 0.012, 0.008
_OUTER = ("open_circuit_voltage_v", "short_circuit_current_a")
_INNER = ("max_power_voltage_v", "max_power_current_a")
CLIMATE_DATA, GIVEN_WEATHER, YEAR_TO_YEAR = "climate_data", "given_weather", "year_to_year"
SHADE, AT_INPUT = "shade", "input"
_UPRIGHT_FROM_DEG = 75.0
_IF_UNTOLD = "free_standing"  # its tilts were reckoned; who tells it knows no less than who does not
_OF_ANOTHER_PLANE = 0.6
_FACES_AS_THE_HOUSE = frozenset({"hung_on_rail", "behind_rail", "balcony_floor", "wall", "fence", "sloped_roof"})
_Sides = tuple[float, float]  # towards less, and towards more
_EAST_TO_WEST_DEG = 180.0  # of a range that is narrower the azimuth's share is less, in proportion: judgement


@dataclass(frozen=True, slots=True, kw_only=True)
class OfLight:
    """What the year of one array tells of its doubts.

    Attributes:
        hidden_share: the part of its light that skyline, overhang and shade take.
        rear_share: what its rear adds, over what both sides get: the front may get little.
        rear_beyond: how much more its rear may add, over what it does (``rears_otherwise``).
        snow_share: what snow takes, over what it leaves.
        weather_moves: how far clouds move its light when they move level ground's by one.
        per_reflectance: how far its light moves with the reflectance of the ground, over its light; None: as bare.
        house: how much less and how much more may come from the ground before its house (``ground_otherwise``).
        upright_at_a_house: what a house takes of its ground's light over its light, if it hangs upright on one, where
            nobody told how it stands.
        faces_share: what faces in the skyline may add to its light, by the sun on them, and as bright ones where nobody
            told it.
        otherwise: how much less and how much more it may give where it lies the other way, has other cells or stands
            before another house than was taken (``lain_otherwise``).
        cooled: likewise, where another mount cools it worse or better (``held_otherwise``).
    """

    hidden_share: float = 0.0
    rear_share: float = 0.0
    rear_beyond: float = 0.0
    snow_share: float = 0.0
    weather_moves: float = 1.0
    per_reflectance: float | None = None
    house: _Sides = (0.0, 0.0)
    upright_at_a_house: float = 0.0
    faces_share: float = 0.0
    otherwise: _Sides = (0.0, 0.0)
    cooled: _Sides = (0.0, 0.0)


def spread_of(
    arrays: Sequence[Array],
    year_kwh: Sequence[float],
    known: Sequence[OfLight],
    climate: PlaceClimate,
    assumptions: Assumptions,
) -> tuple[SpreadPart, ...]:
    """The parts of the year's spread.

    Args:
        arrays: of the request, in its order (pointers of assumptions count them).
        year_kwh: d.c. energy of each array before any limit, the weights.
        known: of each array, what its year tells.
        climate: tells how sure the table is here, and how years differ.
        assumptions: which values nobody gave.

    Table and years are known by the light on level ground, from which a plane's differs (``sky.plane_moves``).
    ``given_weather`` stands for ``climate_data`` where the caller gave the hours; ``year_to_year`` is 0 where a part of
    a year is answered as it was. ``shade`` is there only where something stands around or in front,
    ``datasheet`` only where points of a panel's sheet were assumed, ``plane`` only where a plane or mount was.
    """

    def mean(of: Callable[[int, Array], float]) -> float:
        total = sum(year_kwh)
        weights = [kwh / total for kwh in year_kwh] if total > 0 else [1 / len(arrays)] * len(arrays)
        return sum(weight * of(at, array) for at, (array, weight) in enumerate(zip(arrays, weights, strict=True)))

    def sided(code: str, of: Callable[[int, Array], _Sides]) -> SpreadPart:
        down, up = mean(lambda at, array: of(at, array)[0]), mean(lambda at, array: of(at, array)[1])
        return SpreadPart(code, down, None if up == down else up)

    on_plane = mean(lambda at, _: known[at].weather_moves)
    given = climate.light_from == "given"
    reflectance_open = assumptions.assumed("/site/ground_reflectance_share")
    parts = [
        SpreadPart(GIVEN_WEATHER, climate.climate_sd_share) if given
        else SpreadPart(CLIMATE_DATA, on_plane * climate.climate_sd_share),
        SpreadPart(YEAR_TO_YEAR, on_plane * climate.year_to_year_sd_share),
        sided("rating", lambda _, array: _rating(array.panel)),
        SpreadPart("ageing", mean(lambda at, one: _ageing(one.panel, f"/arrays/{at}/panel/age_years", assumptions))),
        sided("reflectance", lambda at, one: _reflectance(one, known[at], assumed=reflectance_open)),
        SpreadPart("dirt", mean(lambda _, array: max(LEAST_DIRT_SD, DIRT_SD_OF_SHARE * array.dirt_share))),
        SpreadPart("model", mean(lambda _, array: _model(array))),
    ]  # fmt: skip
    shade = sided(SHADE, lambda at, array: _shade(array, known[at], f"/arrays/{at}", assumptions))
    if shade.relative_sd_share > 0.0 or shade.upward_sd_share:
        parts.append(shade)
    rear = sided("rear_light", lambda at, array: _rear(array, known[at], f"/arrays/{at}", assumptions))
    snow = mean(lambda at, _: SNOW_SD_OF_LOSS * known[at].snow_share)
    sheet = mean(lambda at, _: _sheet(f"/arrays/{at}/panel", assumptions))
    plane = sided("plane", lambda at, array: _plane(array, known[at], f"/arrays/{at}", assumptions))
    parts += [
        one for one in (rear, SpreadPart("snow", snow), SpreadPart("datasheet", sheet), plane)
        if one.relative_sd_share > 0
    ]  # fmt: skip
    return tuple(parts)


def with_part(spread: Sequence[SpreadPart], code: str, sd_share: _Sides) -> tuple[SpreadPart, ...]:
    """The spread with so much more of a part, to less and to more, as of another cause; none where that is nought.

    >>> with_part([SpreadPart("shade", 0.04)], "shade", (0.0, 0.03))
    (SpreadPart(code='shade', relative_sd_share=0.04, upward_sd_share=0.05),)
    """
    if max(sd_share) == 0.0:
        return tuple(spread)
    of_code = [part for part in spread if part.code == code]
    less, more = (hypot(before, sd) for before, sd in zip(combined_sd_share(of_code), sd_share, strict=True))
    changed = SpreadPart(code, less, None if less == more else more)
    if not of_code:
        return (*spread, changed)
    return tuple(changed if part.code == code else part for part in spread)


def by_clouds_share(spread: Iterable[SpreadPart]) -> _Sides:
    """What part of a spread's variance comes from clouds, of the table and of the years: to less and to more.

    >>> by_clouds_share([SpreadPart("climate_data", 0.03), SpreadPart("rating", 0.04, 0.0)])
    (0.36, 1.0)
    """
    spread = tuple(spread)
    clouds = combined_sd_share(part for part in spread if part.code in {CLIMATE_DATA, YEAR_TO_YEAR})
    less, more = (
        (of_clouds / of_all) ** 2 if of_all > 0.0 else 0.0
        for of_clouds, of_all in zip(clouds, combined_sd_share(spread), strict=True)
    )
    return less, more


def by_uncut_share(spread: Iterable[SpreadPart]) -> _Sides:
    """What part of a spread's variance is less of what limits leave, and what moves hours that no limit cuts, to more.

    Of another plane the greater half, of how cells lie in a shadow what they may lose less (what they lose more is of
    all hours alike): judgement. Of roofs 20 to 50 degrees steep that holds both ends under limits of 100 to 800 W (own
    runs).

    >>> by_uncut_share([SpreadPart("plane", 0.1), SpreadPart("rating", 0.0)])
    (0.6, 0.6)
    """
    spread = tuple(spread)
    of_all, of_planes, of_cells = (
        combined_sd_share(part for part in spread if codes is None or part.code in codes)
        for codes in (None, {"plane"}, {"shade"})
    )
    variances = (_OF_ANOTHER_PLANE * of_planes[0] ** 2, _OF_ANOTHER_PLANE * of_planes[1] ** 2 + of_cells[1] ** 2)
    less, more = (
        variance / every**2 if every > 0.0 else 0.0 for variance, every in zip(variances, of_all, strict=True)
    )
    return less, more


def _rating(panel: Panel) -> _Sides:
    """The label's tolerance as evenly spread to either side, the flash test's own doubt, and more for used panels."""
    low, high = panel.power_tolerance_pct
    used = USED_SD if panel.age_years >= 1 or panel.history != "unused" else 0.0
    down, up = (hypot(max(side, 0.0) / 100 / sqrt(3), FLASH_TEST_SD, used) for side in (-low, high))
    return down, up


def _sheet(pointer: str, assumptions: Assumptions) -> float:
    for names, sd in ((_OUTER, OUTER_POINTS_SD), (_INNER, INNER_POINTS_SD)):
        if any(assumptions.assumed(f"{pointer}/{name}") for name in names):
            return sd
    return 0.0


def _ageing(panel: Panel, pointer: str, assumptions: Assumptions) -> float:
    """Of an age that nobody told, its range, and the rates' spread over as many years as it may have."""
    low, high = (of(pointer, panel.age_years) for of in (assumptions.low, assumptions.high))
    unknown = AGEING_SHARE_PER_YEAR * (high - low) / (2 * Z_95)
    return min(hypot(FIRST_DAYS_SD, AGEING_SD_PER_YEAR * high, unknown), MOST_AGEING_SD)


def _reflectance(array: Array, known: OfLight, *, assumed: bool) -> _Sides:
    """More on upright planes: the part of the ground that a plane sees is (1 - cos tilt) / 2; and in the shade.

    Before a house it hangs on how high, long and bright that is, too.
    """
    doubt = REFLECTANCE_SD_ASSUMED if assumed else REFLECTANCE_SD_GIVEN
    bare = UPRIGHT_SHARE_PER_REFLECTANCE * (1 - cos(radians(array.plane.tilt_deg)))
    doubt *= bare if known.per_reflectance is None else known.per_reflectance
    less, more = known.house
    return hypot(doubt, less / Z_90), hypot(doubt, more / Z_90)


def _model(array: Array) -> float:
    upright = max(array.plane.tilt_deg - 35.0, 0.0) / 55.0
    return hypot(MODEL_SD_TILTED + upright * (MODEL_SD_UPRIGHT - MODEL_SD_TILTED), MODEL_SD_ELECTRIC)


def _surrounded(array: Array) -> bool:
    return array.surrounded


def _shade(array: Array, known: OfLight, pointer: str, assumptions: Assumptions) -> _Sides:
    """How it is drawn, and how far the year moves where the panel lies the other way, or has the other cells.

    What stands around may take more than was drawn; no more comes without it than it was reckoned to take. So with what
    the house behind hides, told walls or none: counted beside walls alone it made these raise an end. Faces in the
    skyline that nobody told are black in the middle, and give back at the hopeful end what bright ones would; the sun
    on any is at the hopeful end alone.
    """
    drawn = max(LEAST_SHADE_SD, SHADE_SD_OF_LOSS * known.hidden_share)
    hidden = min(drawn, max(known.hidden_share, 0.0))
    less, more = known.otherwise
    if assumptions.assumed(f"{pointer}/mount"):  # where a house is behind it is also warmest: both come together
        less = sqrt(less * (less + 2.0 * known.cooled[0]))
    dimmer, clearer = (share / Z_90 for share in _cover(array, pointer, assumptions))
    up = hypot(hidden, more / Z_90, known.faces_share / Z_90, clearer)
    return hypot(drawn if _surrounded(array) else hidden, less / Z_90, dimmer), up


def _cover(array: Array, pointer: str, assumptions: Assumptions) -> _Sides:
    """How much less and how much more may come through a cover of which nobody told how much does."""
    where = f"{pointer}/cover/light_through_share"
    if array.cover is None or not (assumptions.assumed(where) and array.cover.light_through_share > 0.0):
        return 0.0, 0.0
    through = array.cover.light_through_share
    return 1.0 - assumptions.low(where, through) / through, assumptions.high(where, through) / through - 1.0


def _rear(array: Array, known: OfLight, pointer: str, assumptions: Assumptions) -> _Sides:
    """What the rear adds; of a mount that nobody told, at least what comes to a rear flat against a wall."""
    rear_share = known.rear_share
    sd = REAR_SD_OF_GAIN * rear_share
    up = hypot(sd, rear_share * known.rear_beyond / Z_90)
    if array.rear_light_share is not None or not assumptions.assumed(f"{pointer}/mount"):
        return sd, up
    hidden_share = 1.0 - min(REAR_OPENNESS.values()) / rear_openness(array)
    return hypot(sd, rear_share * hidden_share / Z_90), up


def _plane(array: Array, known: OfLight, pointer: str, assumptions: Assumptions) -> _Sides:
    upright = min(sin(radians(array.plane.tilt_deg)) / sin(radians(_UPRIGHT_FROM_DEG)), 1.0)
    follows = array.mount in _FACES_AS_THE_HOUSE or upright == 1.0
    azimuth = max(AZIMUTH_SD_UPRIGHT * upright, AZIMUTH_SD) if follows else AZIMUTH_SD
    found = assumptions.by_pointer.get(f"{pointer}/plane/azimuth_deg")
    if found is not None and found.low is not None and found.high is not None:
        azimuth *= min((found.high - found.low) % 360.0 / _EAST_TO_WEST_DEG, 1.0)
    azimuth_open, tilt_open = (assumptions.assumed(f"{pointer}/plane/{name}") for name in ("azimuth_deg", "tilt_deg"))
    mount_open = assumptions.assumed(f"{pointer}/mount")
    worse, better = (share / Z_90 for share in known.cooled)
    sides = _other_planes(pointer, assumptions)
    if sides is not None:
        less, more = min(sides[0] + known.upright_at_a_house, 1.0), sides[1]
        if mount_open and array.cover is None:  # it may hang behind a rail
            less = 1.0 - (1.0 - less) * BEHIND_A_RAIL.light_through_share
        # Where it hangs so it is warmest, too, by as much as the light that is left warms it.
        down, up = (1.0 - (1.0 - less) * (1.0 - known.cooled[0] * (1.0 - less))) / Z_90, more / Z_90
        beside = TILT_SD if tilt_open and not mount_open and array.mount != _IF_UNTOLD else 0.0
        return hypot(down, beside), hypot(up, better, beside)
    mount = MOUNT_SD if mount_open and (azimuth_open or tilt_open) else 0.0
    sd = hypot(mount, azimuth if azimuth_open else 0.0, TILT_SD if tilt_open else 0.0)
    return hypot(sd, worse), hypot(sd, better)


def _other_planes(pointer: str, assumptions: Assumptions) -> _Sides | None:
    """How much less and how much more comes in the other planes that it may have, where that was reckoned."""
    for name in ("azimuth_deg", "tilt_deg"):
        found = assumptions.by_pointer.get(f"{pointer}/plane/{name}")
        if found is not None and found.less_share is not None and found.more_share is not None:
            return found.less_share, found.more_share
    return None
