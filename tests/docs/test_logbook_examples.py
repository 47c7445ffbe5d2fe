"""Do the logs of the examples say what their story is?"""

from pathlib import Path

from tests.http.client import ask, post

FOLDER = Path(__file__).parents[2] / "examples" / "logbook"
PATH = "/v1/logbook/review"


def test_three_weeks_on_a_balcony_with_a_lost_connection_and_a_neighbour_show_nothing_unusual() -> None:
    found = post(PATH, (FOLDER / "kranichwerft_in_may.json").read_bytes()).json()["logbook"]
    assert (found["conclusion"], found["basis"]) == ("nothing_unusual", "peers")
    [gap] = found["gaps"]
    assert (gap["kind"], gap["missed_kwh"]) == ("connection_lost", 0.0)


def test_a_month_in_the_yard_shows_that_the_inverter_is_set_lower_than_thought() -> None:
    body = (FOLDER / "quinta_in_june.csv").read_bytes()
    found = ask("POST", PATH, headers={"content-type": "text/csv"}, content=body).json()["logbook"]
    assert found["conclusion"] == "something_wrong"
    assert found["suspects"][0]["code"] == "limit_lower_than_stated"
    assert found["flat_top"]["power_w"] == 250.0
