"""Which panels are there? Kinds of cell and formats of panel, with the ranges that their datasheets keep to."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Span:
    """A middling value and the range of about 95 % of cases."""

    middle: float
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CellClass:
    """What panels of one kind of cell have in common.

    Ratios ``vmp_over_voc``, ``imp_over_isc`` and ``fill_factor``; ``voc_per_cell_v`` at 25 C; coefficients in % per K.
    """

    vmp_over_voc: Span
    imp_over_isc: Span
    fill_factor: Span
    voc_per_cell_v: Span
    voc_pct_per_k: Span
    isc_pct_per_k: Span
    power_pct_per_k: Span


# Ratios of the older crystalline kinds: the service's fill rules from the public list of 2019 (mono above 280 W);
# their ranges and all coefficients of mono, poly, cdte, cigs: quantiles 2.5, 50 and 97.5 % of the same list.
# topcon, hjt, back_contact and mono of cells over 158 mm are newer than the list: trade figures, from memory.
_OLD_VMP = Span(0.813, 0.784, 0.844)
_OLD_IMP = Span(0.943, 0.893, 0.966)
_NEW_VMP = Span(0.830, 0.800, 0.855)
_NEW_IMP = Span(0.950, 0.930, 0.965)

MONO_OLD = CellClass(
    vmp_over_voc=_OLD_VMP, imp_over_isc=_OLD_IMP, fill_factor=Span(0.767, 0.721, 0.795),
    voc_per_cell_v=Span(0.631, 0.590, 0.707), voc_pct_per_k=Span(-0.332, -0.415, -0.262),
    isc_pct_per_k=Span(0.050, 0.010, 0.096), power_pct_per_k=Span(-0.450, -0.550, -0.352),
)  # fmt: skip
MONO_NEW = CellClass(
    vmp_over_voc=_NEW_VMP, imp_over_isc=_NEW_IMP, fill_factor=Span(0.788, 0.760, 0.820),
    voc_per_cell_v=Span(0.690, 0.660, 0.735), voc_pct_per_k=Span(-0.270, -0.320, -0.230),
    isc_pct_per_k=Span(0.048, 0.030, 0.065), power_pct_per_k=Span(-0.340, -0.380, -0.280),
)  # fmt: skip
_POLY = CellClass(
    vmp_over_voc=Span(0.808, 0.780, 0.839), imp_over_isc=Span(0.938, 0.893, 0.962),
    fill_factor=Span(0.757, 0.717, 0.791), voc_per_cell_v=Span(0.622, 0.585, 0.655),
    voc_pct_per_k=Span(-0.340, -0.420, -0.290), isc_pct_per_k=Span(0.056, 0.020, 0.123),
    power_pct_per_k=Span(-0.452, -0.544, -0.386),
)  # fmt: skip
_TOPCON = CellClass(
    vmp_over_voc=Span(0.840, 0.815, 0.860), imp_over_isc=Span(0.947, 0.930, 0.965),
    fill_factor=Span(0.795, 0.770, 0.825), voc_per_cell_v=Span(0.718, 0.690, 0.740),
    voc_pct_per_k=Span(-0.250, -0.290, -0.230), isc_pct_per_k=Span(0.045, 0.030, 0.060),
    power_pct_per_k=Span(-0.300, -0.350, -0.270),
)  # fmt: skip
_HJT = CellClass(
    vmp_over_voc=Span(0.840, 0.800, 0.865), imp_over_isc=Span(0.950, 0.920, 0.970),
    fill_factor=Span(0.798, 0.755, 0.835), voc_per_cell_v=Span(0.735, 0.700, 0.760),
    voc_pct_per_k=Span(-0.245, -0.290, -0.220), isc_pct_per_k=Span(0.040, 0.025, 0.060),
    power_pct_per_k=Span(-0.260, -0.300, -0.230),
)  # fmt: skip
_BACK_CONTACT = CellClass(
    vmp_over_voc=Span(0.843, 0.810, 0.870), imp_over_isc=Span(0.945, 0.920, 0.965),
    fill_factor=Span(0.797, 0.755, 0.835), voc_per_cell_v=Span(0.715, 0.670, 0.760),
    voc_pct_per_k=Span(-0.250, -0.310, -0.220), isc_pct_per_k=Span(0.048, 0.030, 0.065),
    power_pct_per_k=Span(-0.300, -0.380, -0.260),
)  # fmt: skip
_CDTE = CellClass(
    vmp_over_voc=Span(0.800, 0.730, 0.835), imp_over_isc=Span(0.910, 0.860, 0.929),
    fill_factor=Span(0.728, 0.640, 0.776), voc_per_cell_v=Span(0.823, 0.760, 0.880),
    voc_pct_per_k=Span(-0.278, -0.320, -0.240), isc_pct_per_k=Span(0.050, 0.030, 0.060),
    power_pct_per_k=Span(-0.260, -0.340, -0.240),
)  # fmt: skip
_CIGS = CellClass(
    vmp_over_voc=Span(0.795, 0.740, 0.810), imp_over_isc=Span(0.866, 0.838, 0.900),
    fill_factor=Span(0.688, 0.640, 0.725), voc_per_cell_v=Span(0.600, 0.497, 0.700),
    voc_pct_per_k=Span(-0.302, -0.380, -0.248), isc_pct_per_k=Span(0.005, -0.010, 0.040),
    power_pct_per_k=Span(-0.400, -0.519, -0.300),
)  # fmt: skip
_AMORPHOUS = CellClass(
    vmp_over_voc=Span(0.768, 0.704, 0.822), imp_over_isc=Span(0.875, 0.782, 0.939),
    fill_factor=Span(0.672, 0.570, 0.753), voc_per_cell_v=Span(0.900, 0.800, 1.681),
    voc_pct_per_k=Span(-0.330, -0.410, -0.230), isc_pct_per_k=Span(0.060, -0.009, 0.121),
    power_pct_per_k=Span(-0.260, -0.450, -0.200),
)  # fmt: skip

_KINDS = {
    "poly": _POLY, "topcon": _TOPCON, "hjt": _HJT, "back_contact": _BACK_CONTACT, "cdte": _CDTE, "cigs": _CIGS,
    "amorphous": _AMORPHOUS,
}  # fmt: skip
THIN_FILM = frozenset({"cdte", "cigs", "amorphous"})
# From 5.5 W a cell on, a panel has cells of more than 158 mm: newer than the list of 2019.
NEW_CELL_W = 5.5


def class_of(cell_kind: str, watts_per_cell: float) -> CellClass:
    """The class of a kind of cell; mono splits in older and newer by the power of one cell."""
    return _KINDS.get(cell_kind) or (MONO_NEW if watts_per_cell >= NEW_CELL_W else MONO_OLD)


def classes_of(watts_per_cell: float) -> tuple[CellClass, ...]:
    """The crystalline kinds that a panel of unsaid kind can have, by the power of one cell; no new one is poly."""
    if watts_per_cell < NEW_CELL_W:
        return MONO_OLD, _POLY, _TOPCON, _HJT, _BACK_CONTACT
    return MONO_NEW, _TOPCON, _HJT, _BACK_CONTACT


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelFormat:
    """A way in which panels are built: cells in series, cell size, power and short-circuit current it comes in.

    ``share`` is how common it is among panels of that power (a rough weight); ``first_year`` and ``last_year`` when
    it was made; ``kinds`` the kinds of cell it is made with, empty for any crystalline one.
    """

    cells_in_series: int
    cell: str
    power_w: tuple[float, float]
    short_circuit_current_a: tuple[float, float]
    length_mm: float
    width_mm: float
    weight_kg: float
    share: float
    years: tuple[int, int]
    kinds: frozenset[str] = frozenset()

    @property
    def newer_than_list(self) -> bool:
        """Is it a build that the public list of 2019 hardly holds: cells of 158 mm and more?"""
        return not self.cell.startswith(("125", "156"))


def _format(
    cells: int, cell: str, power: tuple[float, float], isc: tuple[float, float], size: tuple[float, float, float],
    share: float, years: tuple[int, int], kinds: frozenset[str] = frozenset(),
) -> PanelFormat:  # fmt: skip
    length, width, weight = size
    return PanelFormat(
        cells_in_series=cells, cell=cell, power_w=power, short_circuit_current_a=isc, length_mm=length, width_mm=width,
        weight_kg=weight, share=share, years=years, kinds=kinds,
    )  # fmt: skip


_HIGH_VOLTAGE = frozenset({"mono", "hjt", "back_contact"})

# Formats to 2019: power, current and size are quantiles of the public list; shares follow its counts. Later ones, and
# the currents by cell size: trade figures, from memory.
FORMATS: tuple[PanelFormat, ...] = (
    _format(36, "125 mm", (60, 110), (4.8, 6.3), (1195, 541, 8.0), 1.0, (1995, 2030)),
    _format(36, "156 mm", (105, 180), (7.5, 9.9), (1482, 670, 12.0), 1.0, (2003, 2030)),
    _format(36, "166 mm", (185, 212), (10.2, 11.8), (1500, 700, 12.0), 0.5, (2019, 2040)),
    _format(72, "125 mm", (150, 215), (4.9, 6.3), (1580, 808, 15.5), 1.0, (1998, 2014)),
    _format(48, "156 mm", (160, 215), (7.6, 9.2), (1320, 990, 16.0), 0.5, (2005, 2016)),
    _format(54, "156 mm", (180, 240), (7.7, 9.2), (1482, 990, 17.5), 0.5, (2005, 2016)),
    _format(60, "156 mm", (205, 288), (7.8, 9.7), (1650, 992, 18.5), 3.0, (2005, 2021)),
    _format(60, "156 mm, mono", (285, 322), (8.9, 10.2), (1650, 992, 18.5), 2.0, (2013, 2021), _HIGH_VOLTAGE),
    _format(72, "156 mm", (255, 385), (8.1, 10.2), (1960, 992, 22.5), 1.5, (2006, 2021)),
    _format(96, "125 mm", (310, 345), (5.8, 6.6), (1559, 1046, 18.6), 0.25, (2006, 2020), _HIGH_VOLTAGE),
    _format(60, "158.75 mm", (312, 348), (9.9, 10.6), (1684, 1002, 19.0), 3.0, (2018, 2023), _HIGH_VOLTAGE),
    _format(72, "158.75 mm", (380, 414), (9.9, 10.6), (2008, 1002, 22.5), 0.3, (2018, 2023)),
    _format(60, "166 mm", (348, 388), (10.8, 11.7), (1765, 1048, 20.5), 3.0, (2019, 2030)),
    _format(72, "166 mm", (428, 465), (10.8, 11.7), (2100, 1045, 24.0), 0.7, (2019, 2030)),
    _format(54, "182 mm", (386, 462), (12.6, 14.6), (1722, 1134, 21.5), 6.0, (2020, 2040)),
    _format(60, "182 mm", (438, 515), (12.9, 14.6), (1903, 1134, 24.5), 1.0, (2020, 2040)),
    _format(66, "182 mm", (480, 525), (12.9, 14.4), (2094, 1134, 26.5), 1.0, (2020, 2040)),
    _format(72, "182 mm", (525, 605), (13.3, 14.8), (2278, 1134, 28.5), 3.0, (2020, 2040)),
    _format(48, "182 x 210 mm", (425, 480), (15.0, 16.6), (1762, 1134, 21.5), 1.5, (2022, 2040)),
    _format(66, "182 x 210 mm", (590, 650), (15.3, 16.6), (2382, 1134, 33.0), 1.5, (2022, 2040)),
    _format(50, "210 mm, cut in three", (480, 515), (12.1, 13.0), (2187, 1102, 26.5), 0.5, (2020, 2023)),
    _format(55, "210 mm", (530, 565), (17.8, 18.8), (2384, 1096, 28.6), 0.7, (2020, 2040)),
    _format(60, "210 mm", (575, 625), (18.0, 18.9), (2172, 1303, 31.0), 0.7, (2020, 2040)),
    _format(66, "210 mm", (635, 725), (18.0, 19.3), (2384, 1303, 34.5), 3.0, (2020, 2040)),
)
