"""Does the bench of a log's review run, and does it count what it says?"""

from service.bench.logbook_speed import made_rows, measured


def test_both_forms_are_measured() -> None:
    found = measured(repeats=1, count=2000)
    assert [one.form for one in found] == ["JSON", "table"]
    assert all(one.cpu_ms > 0 and one.peak_mib > 0 for one in found)
    assert str(found[0]).startswith("JSON")


def test_the_made_up_year_has_summer_and_night() -> None:
    rows = made_rows()
    assert len(rows) == 105_120
    assert rows[0][1] == 0.0
    assert sum(watts for _, watts in rows[40_000:52_000]) > 1.5 * sum(watts for _, watts in rows[:12_000])
