"""What cannot both hold: is each told where it stands, what is accepted there, and with an example that resolves it?"""

import ast
from pathlib import Path
from typing import Any

import pytest

import service.core
from service.api.words import codes_of
from tests.http.client import PLAIN, SMALLEST, changed, post
from tests.http.walk import put_at, told_amiss

LABEL = {"rated_power_w": 440, "open_circuit_voltage_v": 39.4, "short_circuit_current_a": 14.1,
         "max_power_voltage_v": 32.9, "max_power_current_a": 13.38}  # fmt: skip
PANEL = "/arrays/0/panel"


def panel(**facts: Any) -> dict[str, Any]:
    return changed("/arrays/0/panel", {"rated_power_w": 440, **facts})


def inverter(**facts: Any) -> dict[str, Any]:
    return changed("/inverter", {"ac_power_w": 600, **facts})


def tariff(*days: str | None, currency: str | None = "EUR") -> dict[str, Any]:
    periods = [{"valid_from": day, "import_price_per_kwh": 0.3} for day in days]
    return changed("/tariff", {"currency": currency, "periods": periods})


def arrays(*facts: dict[str, Any], **inputs: Any) -> dict[str, Any]:
    listed = [{"panel": {"rated_power_w": 410}, **one} for one in facts]
    return {**inverter(**inputs), "arrays": listed}


LOG = {"first": "2025-03-01T00:00", "step_minutes": 60, "values_w": [200.0] * 48}


def home(**facts: Any) -> dict[str, Any]:
    return changed("/household", facts)


def box(**facts: Any) -> dict[str, Any]:
    return changed("/storage", {"usable_kwh": 1.6, **facts})


def period(price: float | None = 0.3, **facts: Any) -> dict[str, Any]:
    return {"currency": "EUR", "periods": [{"valid_from": "2026-01-01", "import_price_per_kwh": price, **facts}]}


GHI = [0.0] * 7 + [60.0, 150, 260, 350, 400, 410, 380, 300, 210, 110, 40.0] + [0.0] * 6
JUNE = {"first": "2025-06-01T00:00:00+02:00", "step_minutes": 60, "stamp": "start", "ghi_w_per_m2": GHI}
ON_PLANE = {**{name: JUNE[name] for name in ("first", "step_minutes", "stamp")}, "plane_w_per_m2": [GHI]}


def weather(series: dict[str, Any], **facts: Any) -> dict[str, Any]:
    return {**SMALLEST, "weather": {"source": "given", "series": series}, **facts}


TURNED = [{"panel": {"rated_power_w": 410}, "plane": {"tilt_deg": 30, "azimuth_deg": 180}}]

ROWS = [["2025-06-01T10:00:00Z", 210], ["2025-06-01T11:00:00Z", 230]]


def readings(**facts: Any) -> dict[str, Any]:
    return {**SMALLEST, "readings": {"kind": "interval", "unit": "wh", **facts}}


# name -> the sentence it has (of the catalogue, or of the core), request, where it stands
BOARD: dict[str, Any] = {
    "site": {"latitude_deg": 54.2, "longitude_deg": 12.3}, "places": [{"mount": "wall", "count": 1}],
    "at_hand": {"inverter": {"ac_power_w": 600}},
    "adverts": [{"id": "a", "title": "Solarmodul 410 W", "body": "gebraucht, 60 Euro"}],
}  # fmt: skip

CASES: dict[str, tuple[str, dict[str, Any], str]] = {
    "more used than needed": ("share_of_demand", {**PLAIN, "household": {"demand_kwh_per_year": 300}},
                              "/use/self_used_share"),
    "a band of another energy": ("band_of_share", changed("/use/self_used_kwh", {
        "cautious": 100, "middle": 200, "hopeful": 900}, PLAIN), "/use/self_used_kwh"),
    "more used of a roof than it gives": ("used_of_plant", {**PLAIN, "use": {
        "self_used_share": 0.5, "other_generation": {"year_kwh": 500, "self_used_kwh": 600}}},
        "/use/other_generation/self_used_kwh"),
    "months of a year's sum": ("", changed("/meter", {"netting": "month"}, changed(
        "/tariff/periods/0/export", "netted", PLAIN)), "/meter/netting"),
    "a gauge for a section": ("", {**SMALLEST, "site": {**SMALLEST["site"], "rule_area": "US-UT"}, "socket_circuit": {
        "breaker_a": 15, "cable_mm2": 14}}, "/socket_circuit/cable_mm2"),
    "the height of another place": ("elevation", changed("/site/elevation_m", 6000), "/site/elevation_m"),
    "the clock of another place": ("time_zone", changed("/site/time_zone", "Asia/Tokyo"), "/site/time_zone"),
    "a skyline in no order": ("", arrays({"skyline": [
        {"azimuth_deg": azimuth, "height_deg": height}
        for azimuth, height in ((200, 30), (95, 20), (300, 5), (150, 9), (200, 0))
    ]}), "/arrays/0/skyline"),
    "an input that is not there": ("input", arrays({"input": 3}, input_count=2), "/arrays/0/input"),
    "no input left": ("", arrays({}, {}, input_count=1), "/arrays/1/input"),
    "three limits for two inputs": ("inputs", inverter(input_count=2, inputs=[{}, {}, {}]), "/inverter/inputs"),
    "a limit above the rating": ("limit", inverter(set_limit_w=800), "/inverter/set_limit_w"),
    "a window upside down": ("order", inverter(inputs=[{"tracking_min_v": 50, "tracking_max_v": 20}]),
                             "/inverter/inputs/0/tracking_min_v"),
    "a window above the greatest voltage": ("", inverter(inputs=[{"tracking_min_v": 50, "max_input_voltage_v": 30}]),
                                            "/inverter/inputs/0/tracking_min_v"),
    "a start above the greatest voltage": ("", inverter(inputs=[{"start_voltage_v": 50, "max_input_voltage_v": 30}]),
                                           "/inverter/inputs/0/start_voltage_v"),
    "evening before morning": ("hours", changed("/household", {"at_home": {"weekday": [[23, 6]]}}),
                               "/household/at_home/weekday/0"),
    "no time at all": ("hours", changed("/household", {"at_home": {"weekend": [[24, 24]]}}),
                       "/household/at_home/weekend/0"),
    "one coefficient in two units": ("coefficient", panel(isc_coefficient_pct_per_k=0.05, isc_coefficient_a_per_k=0.1),
                                     f"{PANEL}/isc_coefficient_a_per_k"),
    "a coefficient of another panel": ("", panel(**LABEL, isc_coefficient_a_per_k=0.1),
                                       f"{PANEL}/isc_coefficient_a_per_k"),
    "a tolerance upside down": ("order", panel(power_tolerance_pct=[5, 0]), f"{PANEL}/power_tolerance_pct/0"),
    "a day named twice": ("same_day", tariff("2026-01-01", "2027-01-01", "2026-01-01"), "/tariff/periods/2/valid_from"),
    "two periods without a day": ("", tariff(None, None), "/tariff/periods/1/valid_from"),
    "periods out of order": ("", tariff("2027-01-01", "2026-01-01"), "/tariff/periods/1/valid_from"),
    "a set and its energy": ("payback", {**SMALLEST, **PLAIN}, "/arrays"),
    "no currency anywhere": ("", {**PLAIN, "tariff": {"periods": [{"import_price_per_kwh": 0.3}]}},
                             "/tariff/currency"),
    "one panel in series with another array": ("", arrays({"input": 1, "joined": "series"}, {"input": 1}),
                                               "/arrays/0/joined"),
    "hours and a log": ("hours_or_log", home(demand={"values_w": [200] * 24, "log": LOG}), "/household/demand"),
    "a day as own hours": ("profile", home(demand={"values_w": [200] * 24, "kind": "own_hours"}),
                           "/household/demand/kind"),
    "steps that leave a rest": ("steps", home(demand={"log": {**LOG, "step_minutes": 7}}),
                                "/household/demand/log/step_minutes"),
    "filled by hand": ("filled_log", home(demand={"log": LOG, "filled_share": 0.1}), "/household/demand/filled_share"),
    "a log of a morning": ("", home(demand={"log": {**LOG, "step_minutes": 15, "values_w": [200] * 24}}),
                           "/household/demand/log/values_w"),
    "a roof of no size": ("no_size", home(other_generation={"plane": {"tilt_deg": 30}}), "/household/other_generation"),
    "a roof told twice": ("other_twice", home(other_generation={"values_w": [100] * 8760, "year_kwh": 876}),
                          "/household/other_generation/year_kwh"),
    "a box on a socket": ("box_on_a_socket", box(coupling="ac", max_input_current_a=14),
                          "/storage/max_input_current_a"),
    "a box that follows the meter": ("follows_the_meter", box(meter_reader=True, night_feed_w=100),
                                     "/storage/night_feed_w"),
    "more fed than it gives": ("order", box(meter_reader=False, night_feed_w=500, discharge_limit_w=300),
                               "/storage/night_feed_w"),
    "a box beside known energy": ("storage_needs_hours", {**PLAIN, "storage": {"usable_kwh": 1.6}}, "/storage"),
    "a band out of order": ("band", {**PLAIN, "energy": {"year_kwh": {"cautious": 7, "middle": 6, "hopeful": 8}}},
                            "/energy/year_kwh"),
    "rates beside known energy": ("needs_hours", {**PLAIN, "tariff": period(rates=[{"import_price_per_kwh": 0.2}])},
                                  "/tariff/periods/0/rates"),
    "kVA without an inverter": ("needs_inverter", {**PLAIN, "tariff": period(fee_per_kva_year=60)},
                                "/tariff/periods/0/fee_per_kva_year"),
    "rates and hourly prices": ("", {**SMALLEST, "tariff": period(None, rates=[{"import_price_per_kwh": 0.2}],
                                                                  hourly={"import_prices_per_kwh": [0.3] * 24})},
                                "/tariff/periods/0/hourly"),
    "25 hourly prices": ("", {**SMALLEST, "tariff": period(None, hourly={"import_prices_per_kwh": [0.3] * 25})},
                         "/tariff/periods/0/hourly/import_prices_per_kwh"),
    "a price and hourly prices": ("", {**SMALLEST, "tariff": period(hourly={"import_prices_per_kwh": [0.3] * 24})},
                                  "/tariff/periods/0/import_price_per_kwh"),
    "hours on a meter that runs backwards": ("", {**SMALLEST, "meter": {"counts": "reversing"}, "tariff": period(
        None, hourly={"import_prices_per_kwh": [0.3] * 24})}, "/tariff/periods/0/hourly"),
    "half of a window": ("", {**SMALLEST, "tariff": period(
        rates=[{"from_clock": "22:00", "import_price_per_kwh": 0.2}])},
                         "/tariff/periods/0/rates/0/to_clock"),
    "a rate without a price": ("", {**SMALLEST, "tariff": period(rates=[{"days": "weekend"}])},
                               "/tariff/periods/0/rates/0"),
    "a month twice": ("", {**SMALLEST, "tariff": period(rates=[{"months": [5, 5], "import_price_per_kwh": 0.2}])},
                      "/tariff/periods/0/rates/0/months"),
    "a price for what is unpaid": ("", {**SMALLEST, "tariff": period(export="unpaid", export_price_per_kwh=0.08)},
                                   "/tariff/periods/0/export_price_per_kwh"),
    "hours beside the climate": ("weather_series", {**SMALLEST, "weather": {"source": "climate", "series": JUNE}},
                                 "/weather/series"),
    "a file beside the climate": ("weather_file", {**SMALLEST, "weather": {"source": "climate", "file": "pier"}},
                                  "/weather/file"),
    "a file that nobody keeps": ("no_files", {**SMALLEST, "weather": {"source": "file", "file": "pier"}}, "/weather"),
    "times beside a step": ("times_twice", weather({"times": ["2025-06-01T10:00Z", "2025-06-01T11:00Z"],
                                                    "step_minutes": 60, "stamp": "end", "ghi_w_per_m2": [300, 310]}),
                            "/weather/series/step_minutes"),
    "beam beside a plane": ("without_ghi", weather({**ON_PLANE, "dni_w_per_m2": GHI}, arrays=TURNED),
                            "/weather/series/dni_w_per_m2"),
    "one plane for two arrays": ("planes", weather(ON_PLANE, arrays=TURNED * 2), "/weather/series/plane_w_per_m2"),
    "a value and none": ("value_and_none", {"panel": LABEL, "readings": [
        {"bypass_forward_v": 0.9, "bypass_over_range": True}]}, "/readings/0/bypass_over_range"),
    "light on a plane left open": ("plane_open", weather(ON_PLANE), "/arrays/0/plane"),
    "light in kW": ("", weather({**JUNE, "ghi_w_per_m2": [one / 1000 for one in GHI]}), "/weather"),
    "more light than the sun has": ("", weather({**JUNE, "ghi_w_per_m2": [one * 4 for one in GHI]}), "/weather"),
    "a beam that is more than the sum": ("", weather({**JUNE, "dni_w_per_m2": [one * 3 for one in GHI],
                                                      "dhi_w_per_m2": [one / 2 for one in GHI]}),
                                         "/weather/series/dni_w_per_m2"),
    "diffuse light that is more than the sum": ("", weather({**JUNE, "dhi_w_per_m2": [one * 1.5 for one in GHI]}),
                                                "/weather/series/dhi_w_per_m2"),
    "a sum that is less than both": ("", weather({**JUNE, "dni_w_per_m2": [one * 3 for one in GHI],
                                                  "dhi_w_per_m2": [one * 2 for one in GHI]}), "/weather"),
    "a limit by a home's year of a day": ("limit_of_a_part", weather(
        JUNE, inverter={"ac_power_w": 600, "export_limit_w": 300}), "/inverter/export_limit_w"),
    "an account of a day": ("part_of_a_year", weather(JUNE), "/weather"),
    "an account of one plane": ("plane_elsewhere", weather({**JUNE, "plane_w_per_m2": [GHI]}, arrays=TURNED),
                                "/weather/series/plane_w_per_m2"),
    "a whole label of too few volts": ("", panel(**{**LABEL, "open_circuit_voltage_v": 20}),
                                       f"{PANEL}/open_circuit_voltage_v"),
    "a whole label of too little short-circuit current": ("", panel(**{**LABEL, "short_circuit_current_a": 5}),
                                                          f"{PANEL}/short_circuit_current_a"),
    "Vmp above Voc": ("", panel(open_circuit_voltage_v=30, max_power_voltage_v=31), f"{PANEL}/max_power_voltage_v"),
    "Vmp far above Voc": ("", panel(open_circuit_voltage_v=7, max_power_voltage_v=144),
                          f"{PANEL}/open_circuit_voltage_v"),
    "more than volts and amperes give": ("", panel(open_circuit_voltage_v=20, short_circuit_current_a=10),
                                         f"{PANEL}/rated_power_w"),
    "figures beyond every panel": ("", panel(rated_power_w=900, short_circuit_current_a=1),
                                   f"{PANEL}/short_circuit_current_a"),
    "a whole label with Vmp above Voc": ("", panel(**{**LABEL, "max_power_voltage_v": 40}),
                                         f"{PANEL}/max_power_voltage_v"),
    "a whole label with Imp above Isc": ("", panel(**{**LABEL, "max_power_current_a": 14.4}),
                                         f"{PANEL}/max_power_current_a"),
    "a whole label that makes no curve": ("", panel(**{**LABEL, "max_power_voltage_v": 10}),
                                          f"{PANEL}/max_power_voltage_v"),
    "a whole label of little current": ("", panel(**{**LABEL, "max_power_current_a": 4}),
                                        f"{PANEL}/max_power_current_a"),
    "a whole label of another power": ("", panel(**{**LABEL, "max_power_voltage_v": 26}),
                                       f"{PANEL}/max_power_voltage_v"),
    "a file beside a log": ("file_of_no_year", {**readings(rows=ROWS), "weather": {"source": "file", "file": "pier"}},
                            "/weather"),
    "power in kWh": ("log_unit", readings(kind="power", rows=ROWS), "/readings/unit"),
    "rows beside a step": ("log_twice", readings(rows=ROWS, step_minutes=60), "/readings/step_minutes"),
    "rows beside inputs": ("log_twice", readings(rows=ROWS, by_input=[{"input": 1, "rows": ROWS}]), "/readings/rows"),
    "an input logged twice": ("input_twice", readings(by_input=[{"input": 1, "rows": ROWS} for _ in range(2)]),
                              "/readings/by_input/1/input"),
    "a log that ends first": ("log_end", {**PLAIN, "logbook": {
        "logged_kwh": 3, "from_time": "2026-05-01T00:00:00Z", "to_time": "2026-04-01T00:00:00Z"}}, "/logbook/to_time"),
    "a whole label of more power": ("", panel(**{**LABEL, "rated_power_w": 540}), f"{PANEL}/rated_power_w"),
    "two adverts of one name": (
        "same_advert", {**BOARD, "adverts": [{"id": "a", "title": watts} for watts in ("410 W", "400 W")]},
        "/adverts/1/id",
    ),
    "a new set without room": ("no_room", {**BOARD, "new_from_shop": {
        "outlay": 420, "panel_count": 4, "panel": {"rated_power_w": 440}, "inverter": {"ac_power_w": 800}}},
        "/new_from_shop/panel_count"),
}  # fmt: skip
PLAINLY = {"more used of a roof than it gives", "a band out of order",
           "more used than needed", "a band of another energy", "months of a year's sum",
           "a set and its energy", "no currency anywhere", "a box beside known energy", "rates beside known energy",
           "kVA without an inverter", "a log that ends first"}  # fmt: skip


BOARDS = {"two adverts of one name", "a new set without room"}
AT_THE_DOOR = {"a value and none"}
LOGS = {"a file beside a log", "power in kWh", "rows beside a step", "rows beside inputs", "an input logged twice"}
OF_A_FOLDER = {"no_such_file", "file_elsewhere"}  # test_weather_files.py has theirs
ACCOUNTS = {"an account of a day"}  # asked of /v1/appraisal
OF_ANOTHER_PATH = {"an account of one plane"}  # what is then still wrong is another thing


@pytest.mark.parametrize("name", CASES)
def test_a_contradiction_is_told_where_it_stands_with_an_example_that_resolves_it(name: str) -> None:
    _, request, pointer = CASES[name]
    accounts = ACCOUNTS | OF_ANOTHER_PATH
    path = (
        "/v1/pickup-check"
        if name in AT_THE_DOOR
        else "/v1/logbook/review"
        if name in LOGS
        else "/v1/adverts/shortlist"
        if name in BOARDS
        else "/v1/payback"
        if name in PLAINLY
        else "/v1/appraisal"
        if name in accounts
        else "/v1/energy"
    )
    answer = post(path, request)
    assert answer.status_code == 422, answer.text
    assert answer.json()["code"] == "contradiction"
    assert told_amiss(answer) == ""
    [told] = answer.json()["errors"]
    assert told["pointer"] == pointer, told
    again = post(path, put_at(request, told["pointer"], told["example"]))
    if name in OF_ANOTHER_PATH:
        assert [one["pointer"] for one in again.json()["errors"]] == ["/weather"]
    elif name != "no input left":  # where two arrays look for one input, each has to be told
        assert again.status_code == 200, (told, again.text)
    else:
        assert [one["pointer"] for one in again.json()["errors"]] == ["/arrays/0/input"]


def test_every_sentence_of_a_contradiction_has_its_case() -> None:
    assert set(codes_of("problems", "mistake.contradiction.")) == (
        {sentence for sentence, _, _ in CASES.values()} | OF_A_FOLDER
    ) - {""}


def test_every_contradiction_of_the_core_is_raised_with_what_is_accepted_and_an_example() -> None:
    lacking = []
    for file in Path(service.core.__file__).parent.rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "ContradictionError":
                named = {keyword.arg for keyword in node.keywords}
                # the rules of a panel are given their example where the whole panel is known
                if not {"accepted", "example"} <= named and file.name != "panel_rules.py":
                    lacking.append(f"{file.name}:{node.lineno}")
    assert lacking == []
