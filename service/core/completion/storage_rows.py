"""What is taken for a small battery where the caller gives nothing?"""

from service.core.completion.rows import NEUTRAL, WARY, Row

_TRIED = "settings run through this home's year, see storage.settings_tried"
_JUDGED = "judgement: small boxes beside plug-in sets, from memory; nothing was measured"


def _storage(name: str, **row: object) -> Row:
    return Row(pointer=f"/storage/{name}", **row)  # type: ignore[arg-type]


STORAGE_ROWS: tuple[Row, ...] = (
    _storage("coupling", code="usual_box", value="dc", source=_JUDGED),
    _storage("charge_limit_w", code="half_an_hour_kwh", rule="full from empty in two hours: 500 W for each kWh, at "
             "least 200, at most 2400", unit="W", source=_JUDGED),
    _storage("discharge_limit_w", code="half_an_hour_kwh", rule="empty from full in two hours: 500 W for each kWh, at "
             "least 200, at most 2400 and what the inverter is set to", unit="W", source=_JUDGED),
    _storage("max_input_current_a", code="inputs_of_the_inverter", rule="the input limits of the inverter hold",
             unit="A", source=f"{NEUTRAL}; the box has limits of its own, read them"),
    _storage("round_trip_share", code="usual_box", rule="0.90 before the inverter, whose own loss comes on top; 0.80 "
             "on a socket of its own, with conversion both ways; low 0.82 and 0.70, high 0.95 and 0.88",
             source=_JUDGED),
    _storage("standby_w", code="usual_box", value=5.0, unit="W", source=_JUDGED, low=2.0, high=15.0),
    _storage("meter_reader", code="no_reader_named", value=False, source=WARY),
    _storage("night_feed_w", code="most_used_at_home", rule="of a few powers, from what is always on to 0.4 of the "
             "mean demand by day, the one with the most use at home; 0, which is left off, where none adds to it",
             unit="W", source=_TRIED),
    _storage("charge_above_w", code="most_used_at_home", rule="the power by night, 0.3 or 0.6 of the mean demand by "
             "day, whichever brings the most use at home; 5000, which is never, where none adds to it", unit="W",
             source=_TRIED),
    _storage("ageing_share_per_year", code="usual_box", value=0.025, source="judgement: four fifths left after nine "
             "years, as usual warranties promise, from memory", low=0.01, high=0.05),
)  # fmt: skip
