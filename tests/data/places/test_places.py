"""Do places get their clock and country, and is the open sea told from an atoll?"""

from zoneinfo import ZoneInfo, available_timezones

import pytest

from service.data.places import TimeZones, country_of, is_open_sea, names, time_zone_of


@pytest.mark.parametrize(
    ("latitude", "longitude", "zone", "country"),
    [
        (54.2, 12.3, "Europe/Berlin", "DE"),
        (39.3, -8.5, "Europe/Lisbon", "PT"),
        (40.6, -111.9, "America/Denver", "US"),
        (48.2, 16.37, "Europe/Vienna", "AT"),
        (46.95, 7.45, "Europe/Zurich", "CH"),
        (28.1, -15.4, "Atlantic/Canary", "ES"),
        (51.5, -0.1, "Europe/London", "GB"),
        (-36.85, 174.76, "Pacific/Auckland", "NZ"),
        (28.6, 77.2, "Asia/Kolkata", "IN"),
        (4.17, 73.51, "Indian/Maldives", "MV"),
        (65.0, 180.0, "Asia/Anadyr", "RU"),
        (59.9, 10.75, "Europe/Oslo", "NO"),
        (52.37, 4.9, "Europe/Amsterdam", "NL"),
    ],
)
def test_a_place_has_its_clock_and_country(latitude: float, longitude: float, zone: str, country: str) -> None:
    assert time_zone_of(latitude, longitude) == zone
    assert country_of(zone) == country
    assert ZoneInfo(zone).key == zone


def test_the_open_sea_has_a_nautical_zone_and_no_country() -> None:
    assert is_open_sea(0.0, -30.0)
    assert country_of(time_zone_of(0.0, -30.0)) is None


@pytest.mark.parametrize(("latitude", "longitude"), [(1.35, 172.98), (54.18, 7.89), (-25.07, -130.1), (36.0, 14.3)])
def test_small_islands_are_not_the_open_sea(latitude: float, longitude: float) -> None:
    assert not is_open_sea(latitude, longitude)


def test_a_made_up_zone_belongs_to_no_country() -> None:
    assert country_of("Mars/Olympus_Mons") is None


def test_the_clock_of_the_machine_is_no_time_zone() -> None:
    assert "localtime" not in TimeZones()
    assert "localtime" not in set(TimeZones())


def test_a_name_is_known_if_it_is_among_all_names() -> None:
    every = frozenset(available_timezones()) - {"localtime"}
    assert set(TimeZones()) == every
    assert len(TimeZones()) == len(every)
    assert [name for name in every if name not in TimeZones()] == []
    assert "Asia/Kolkata" in TimeZones()
    for wrong in ("Mars/Olympus_Mons", "europe/berlin", "Europe/Berlin ", "", "../etc/passwd"):
        assert wrong not in TimeZones()


def test_the_name_of_a_common_zone_is_known_without_walking_the_machine(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(names, "_every", None)
    assert "Europe/Berlin" in TimeZones()
