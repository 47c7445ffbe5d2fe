"""What is taken for mount, surroundings, inverter and socket circuit where the caller gives nothing?"""

from service.core.completion.rows import NEUTRAL, TRADE, WARY, Row

_STAND = "free-standing in the middle; the truth may be upright and turned aside, so the range is wide"
_MICRO = f"plug-in inverters of 300 to 2000 W: {TRADE}"


def _array(name: str, **row: object) -> Row:
    return Row(pointer=f"/arrays/*/{name}", **row)  # type: ignore[arg-type]


def _input(name: str, **row: object) -> Row:
    return Row(pointer=f"/inverter/inputs/*/{name}", **row)  # type: ignore[arg-type]


def _inverter(name: str, **row: object) -> Row:
    return Row(pointer=f"/inverter/{name}", **row)  # type: ignore[arg-type]


def _circuit(name: str, **row: object) -> Row:
    return Row(pointer=f"/socket_circuit/{name}", **row)  # type: ignore[arg-type]


ARRAY_ROWS: tuple[Row, ...] = (
    _array("name", code="numbered", rule="array 1, array 2 ... in the order given", source=NEUTRAL),
    _array("input", code="next_free_input", rule="the lowest input that no other array names", source=NEUTRAL),
    _array("count", code="one_panel", value=1, source=NEUTRAL),
    _array("joined", code="nothing_to_join", value="parallel", source="one panel is joined to none; arrays on one "
           "input lie in parallel"),
    _array("joined", code="series_unless_said", value="series", source=f"{WARY}: the higher voltage is checked"),
    _array("mount", code="mount_open", value="free_standing", source=_STAND),
    _array("plane/tilt_deg", code="upright_by_mount", value=90.0, unit="deg", source="hung on a rail, wall or fence a "
           "panel stands upright; brackets may lean it out", low=70.0, high=90.0, moves_energy=True),
    _array("plane/tilt_deg", code="pitch_by_mount", value=35.0, unit="deg", source="a middling roof pitch", low=20.0,
           high=50.0, moves_energy=True),
    _array("plane/tilt_deg", code="best_within_mount", rule="the most light of the year within what the mount admits",
           unit="deg", source="computed from this place's typical year", moves_energy=True),
    _array("plane/tilt_deg", code="best_within_fixing", rule="the most light of the year as far as the fixing lets it "
           "lean out", unit="deg", source="computed from this place's typical year", moves_energy=True),
    _array("plane/tilt_deg", code="best_within_bounds", rule="the most light of the year within tilt.bounds",
           unit="deg", source="computed from this place's typical year", moves_energy=True),
    _array("plane/tilt_deg", code="best_of_hinge", rule="the most light of the year in the places of the hinge",
           unit="deg", source="computed from this place's typical year", moves_energy=True),
    _array("plane/tilt_deg", code="best_of_planes", rule="the most light of the year in the planes listed",
           unit="deg", source="computed from this place's typical year", moves_energy=True),
    _array("plane/tilt_deg", code="best_if_free", rule="the most light of the year between 15 and 40 degrees",
           unit="deg", source=_STAND, moves_energy=True),
    _array("plane/azimuth_deg", code="middle_of_faces", rule="the face whose yearly light is the middle one of all "
           "faces from east over the equator's side to west", unit="deg", source="computed from this place's typical "
           "year; please tell which way it looks", moves_energy=True),
    _array("plane/azimuth_deg", code="one_front", rule="the middle face, as middle_of_faces has it, of the array of "
           "most power among those whose front nobody told", unit="deg", source="one house has one front; computed "
           "from this place's typical year; please tell which way it looks", moves_energy=True),
    _array("plane/azimuth_deg", code="as_the_facade", rule="the azimuth of the facade", unit="deg", source="a railing, "
           "wall or roof looks as its facade does"),
    _array("plane/azimuth_deg", code="sun_seen", rule="the direction that agrees with when the sun came and left",
           unit="deg", source="the position of the sun at the times noted", moves_energy=True),
    _array("plane/azimuth_deg", code="best_within_bounds", rule="the most light of the year within tilt.bounds",
           unit="deg", source="computed from this place's typical year", moves_energy=True),
    _array("plane/azimuth_deg", code="best_of_planes", rule="the most light of the year in the planes listed",
           unit="deg", source="computed from this place's typical year", moves_energy=True),
    _array("plane/azimuth_deg", code="best_within_mount", rule="the most light of the year within what the mount "
           "admits", unit="deg", source="computed from this place's typical year", moves_energy=True),
    _array("plane/azimuth_deg", code="best_if_free", rule="the most light of the year", unit="deg", source=_STAND,
           moves_energy=True),
    _array("facade_azimuth_deg", code="middle_of_faces", rule="the face whose yearly light is the middle one of all "
           "faces from east over the equator's side to west, or of the arc of tilt.bounds", unit="deg",
           source="computed from this place's typical year; please tell which way the facade looks", moves_energy=True),
    _array("facade_azimuth_deg", code="one_front", rule="the middle face, as middle_of_faces has it, of the array of "
           "most power among those whose front nobody told", unit="deg", source="one house has one front; computed "
           "from this place's typical year; please tell which way the facade looks", moves_energy=True),
    _array("facade_azimuth_deg", code="sun_seen", rule="the direction that agrees with when the sun came and left",
           unit="deg", source="the position of the sun at the times noted", moves_energy=True),
    _array("facade_azimuth_deg", code="square_to_panel", rule="the azimuth of the panel as it stands", unit="deg",
           source=f"panels stand square to their facade: {TRADE}", moves_energy=True),
    _array("orientation", code="by_mount", rule="lengthwise at a railing, else upright", source=TRADE),
    _array("height_above_ground_m", code="by_mount", rule="balcony 6, wall 4, flat roof 6, sloped roof 5, fence 0.5, "
           "ground 0.3, free-standing 1", unit="m", source=NEUTRAL, moves_energy=True),
    _array("height_above_ground_m", code="below_the_roof", rule="balcony 6, wall 4, at most 3 m below the roof edge "
           "that was told, on a house below 6 m half-way up", unit="m", source=NEUTRAL, moves_energy=True),
    _array("fixing/building_height_m", code="a_storey_above", rule="3 m above the panels at a railing or wall, as high "
           "as the panels on a roof", unit="m", source=NEUTRAL, moves_energy=True),
    _array("fixing/railing_height_m", code="usual_railing", value=1.0, unit="m", source="building codes ask for 0.9 to "
           "1.1 m, from memory", low=0.9, high=1.2),
    _array("fixing/high_lean_out_deg", code="upright_unless_told", value=0.0, unit="deg", source="hung plainly on a "
           "rail, wall or fence a panel stands upright; brackets may lean it out", low=0.0, high=20.0),
    _array("fixing/high_lean_out_deg", code="as_it_leans", rule="as far from upright as it leans already", unit="deg",
           source="as it stands it can stand; brackets may lean it out further", low=0.0, high=20.0),
    _array("skyline", code="nothing_around", value=[], source=NEUTRAL),
    _array("skyline", code="straight_across_gaps", rule="straight from point to point, also through north; one point "
           "alone all around", source="our own choice, on the wary side: an object named alone is taken as a ridge",
           moves_energy=True),
    _array("side_walls", code="nothing_around", value=[], source=NEUTRAL),
    _array("shade", code="nothing_around", value=[], source=NEUTRAL),
    _array("overhang/above_top_edge_m", code="usual_slab", value=1.6, unit="m", source="a storey of 2.8 m over a "
           "railing of 1.1 m, about", low=1.0, high=2.2, moves_energy=True),
    _array("overhang/reaches_out_m", code="usual_slab", value=0.3, unit="m", source=NEUTRAL, low=0.0, high=1.2,
           moves_energy=True),
    _array("hand_rail/above_top_edge_m", code="usual_rail", value=0.0, unit="m", source=NEUTRAL),
    _array("hand_rail/distance_m", code="usual_rail", value=0.1, unit="m", source=NEUTRAL, low=0.02, high=0.3,
           moves_energy=True),
    _array("hand_rail/thickness_m", code="usual_rail", value=0.05, unit="m", source=TRADE, low=0.03, high=0.1,
           moves_energy=True),
    _array("row_in_front/above_bottom_edge_m", code="not_said", value=0.0, unit="m", source=NEUTRAL),
    _array("row_in_front/distance_m", code="not_said", value=1.0, unit="m", source=NEUTRAL),
    _array("panel/half_cells", code="whole_cells", value=False, source=f"{WARY}: a band of shadow never costs whole "
           "cells less than half cells"),
    _array("side_walls/*/side", code="usual_wall", value="left", source=NEUTRAL),
    _array("side_walls/*/distance_m", code="usual_wall", value=0.5, unit="m", source=NEUTRAL, low=0.1, high=2.0,
           moves_energy=True),
    _array("side_walls/*/reaches_out_m", code="usual_wall", value=1.2, unit="m", source=NEUTRAL, low=0.5, high=2.0,
           moves_energy=True),
    _array("cover/material", code="not_said", value="not_known", source=NEUTRAL),
    _array("cover/light_through_share", code="usual_cover", value=0.8, source=f"glass or bars: {TRADE}", low=0.5,
           high=0.92, moves_energy=True),
    _array("cover/light_through_share", code="rail_in_front", value=0.8, source=f"glass or bars before what stands "
           f"behind a rail: {TRADE}", low=0.5, high=0.95, moves_energy=True),
    _array("cover/light_through_share", code="rail_not_told", rule="a balcony has a rail: one of 1 m as "
           "if it were told; or none", source=f"glass or bars: {TRADE}", moves_energy=True),
    _array("cover/light_through_share", code="rail_before_floor", rule="1 less a fifth of what the rail hides of the "
           "lowest cells' light: 0.69 at 1 m, half at 0.45", source=f"glass or bars: {TRADE}; the part hidden by own "
           "runs, 0.05 to 0.5 m before panels that lean 15 to 45 degrees", moves_energy=True),
    _array("shade/*/cause", code="not_said", value="not_known", source=NEUTRAL),
    _array("shade/*/edge", code="hard_unless_said", value="hard", source=f"{WARY}; what a soft one would leave is in "
           "the range"),
    _array("shade/*/edge", code="soft_of_leaves", value="soft", source="light comes through leaves and past them; what "
           "a hard edge would take is in the range"),
    _array("shade/*/months", code="all_year", value=[1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12], source=WARY),
    _array("shade/*/from_clock", code="all_day", value="00:00", source=WARY),
    _array("shade/*/to_clock", code="all_day", value="24:00", source=WARY),
    _array("shade/*/blocked_share", code="usual_shade", value=0.6, source=f"a tree in leaf: {TRADE}", low=0.3,
           high=0.95, moves_energy=True),
    _array("skyline/*/azimuth_deg", code="not_said", value=180.0, unit="deg", source=NEUTRAL),
    _array("skyline/*/height_deg", code="not_said", value=0.0, unit="deg", source=NEUTRAL),
    _array("dirt_share", code="usual_dirt", value=0.02, source=f"rained on, no dust source near: {TRADE}", low=0.005,
           high=0.06, moves_energy=True),
    _array("mismatch_share", code="one_panel_an_input", value=0.0, source="one panel, or one on an input "
           "of its own, binds no other"),
    _array("mismatch_share", code="usual_mismatch", value=0.01, source=TRADE, low=0.0, high=0.03, moves_energy=True),
    _array("count_rear_light", code="off_unless_asked", value=False, source="the cautious side"),
    _array("lead_length_m", code="usual_lead", value=3.0, unit="m", source=TRADE, low=1.0, high=8.0,
           moves_energy=True),
    _array("lead_mm2", code="usual_lead", value=4.0, unit="mm2", source=TRADE, low=2.5, high=6.0, moves_energy=True),
)  # fmt: skip

INVERTER_ROWS: tuple[Row, ...] = (
    _inverter("set_limit_w", code="not_turned_down", rule="the inverter's own a.c. power", unit="W", source=NEUTRAL),
    _inverter("input_count", code="inputs_by_power", rule="one to 400 W, two to 1000 W, above it one for each 500 W; "
              "never fewer than the arrays need or than are described", source=_MICRO),
    _inverter("weighted_efficiency_share", code="inverter_class", value=0.955, source=_MICRO, low=0.94, high=0.97,
              moves_energy=True),
    _inverter("efficiency_weighting", code="usual_weighting", value="european", source=_MICRO),
    _inverter("night_draw_w", code="inverter_class", value=0.1, unit="W", source=_MICRO, low=0.0, high=0.6),
    _inverter("seat", code="usual_seat", value="behind_panel", source=_MICRO),
    _input("max_input_voltage_v", code="inverter_class", rule="60, or a little above a tracking range that goes "
           "higher; high: 65, or 150 of inverters above 1000 W with more than 600 W an input, which may be for strings",
           unit="V", source=f"{_MICRO}; never counted as known", low=50.0, high=65.0),
    _input("tracking_min_v", code="inverter_class", rule="16, or 0.27 of a high maximum voltage", unit="V",
           source=_MICRO, low=14.0, high=28.0, moves_energy=True),
    _input("tracking_max_v", code="inverter_class", rule="0.92 of the maximum voltage: 55 of 60", unit="V",
           source=_MICRO, low=45.0, high=60.0, moves_energy=True),
    _input("tracking_max_v", code="cut_at_greatest_voltage", rule="the greatest input voltage given, where the range "
           "was said to reach above it", unit="V", source="an input never works above what it stands"),
    _input("start_voltage_v", code="inverter_class", rule="22, within the tracking range", unit="V", source=_MICRO,
           low=16.0, high=30.0, moves_energy=True),
    _input("max_current_a", code="inverter_class", value=14.0, unit="A", source=_MICRO, low=10.5, high=18.0,
           moves_energy=True),
    _input("max_short_circuit_current_a", code="rating_missing", rule="none; low: 15 A, less beside a small "
           "stated current at work (1.2 times it), more beside a great one (that itself); high: 25 A, or 1.6 times it",
           unit="A", source=f"{_MICRO}; never counted as known", low=15.0, high=25.0),
    _input("max_panel_power_kind", code="not_said", value="not_known", source=NEUTRAL),
    _input("connector_pairs", code="inverter_class", value=1, source=_MICRO),
)  # fmt: skip

CIRCUIT_ROWS: tuple[Row, ...] = (
    _circuit("plug", code="not_said", value="not_known", source=NEUTRAL),
    _circuit("voltage_v", code="voltage_of_area", rule="by country: 230, or 100, 110, 120, 127", unit="V",
             source="IEC 60038:2009 and national practice, from memory"),
    _circuit("ambient_c", code="table_ambient", value=30.0, unit="C", source="reference ambient in air of "
             "IEC 60364-5-52:2009; low: a room while the sun shines, our own choice; high: the upper end of usual "
             "ambients, class AA5 of IEC 60364-5-51:2005, from memory", low=20.0, high=40.0),
    _circuit("residual_current_device", code="not_said", value="not_known", source=NEUTRAL),
    _circuit("lead_length_m", code="usual_lead", value=5.0, unit="m", source=TRADE, low=1.0, high=15.0),
    _circuit("lead_mm2", code="usual_lead", value=1.5, unit="mm2", source=TRADE, low=0.75, high=2.5),
    _circuit("feeder_length_m", code="no_feeder", value=0.0, unit="m", source=NEUTRAL, low=0.0, high=30.0),
    _circuit("other_sets", code="nothing_else", value=[], source=NEUTRAL),
    _circuit("other_sets/*/ac_power_w", code="usual_other_set", value=800.0, unit="W", source=WARY),
    _circuit("other_sets/*/panel_power_w", code="usual_other_set", rule="1.1 times its a.c. power", unit="W",
             source=TRADE),
    _circuit("other_sets/*/same_circuit", code="same_unless_said", value=True, source=WARY),
)  # fmt: skip
