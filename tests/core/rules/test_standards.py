"""A paper meets a card's expectation by the whole number of the standard."""

import pytest

from service.core.rules.standards import meets


@pytest.mark.parametrize(
    ("wanted", "shown"),
    [
        ("EN 50549-1", "en50549-1"), ("EN 50549-1", "DIN EN 50549-1 (VDE 0124-549-1):2020"),
        ("EN 50549-1", "CE, EN  50549 - 1"), ("EN 50549-1", "EN 50549\u20131"), ("EN 50549-1", "EN 50549-1-2019"),
        ("VDE-AR-N 4105 (grid protection)", "VDE AR-N 4105:2018-11"), ("VDE-AR-N 4105", "vde 4105"),
        ("DIN VDE V 0126-95 (set)", "VDE V 0126-95"), ("G98 / EN 50549-1", "g 98"), ("G98 / EN 50549-1", "EN 50549-1"),
        ("DIN EN 62109-1/-2 (from memory)", "EN 62109-1 and -2"), ("AS/NZS 4777 series", "AS/NZS 4777.2:2020"),
        ("SP 30:2023 part 8", "sp 30 part 8"), ("CE marking", "ce-marking"), ("UL 1741", "UL 1741 SB"),
        ("Synergrid C10/26 list", "c10/26"), ("BS 7671:2018+A4:2026", "BS 7671"),
    ],
)  # fmt: skip
def test_one_standard_is_known_however_it_is_written(wanted: str, shown: str) -> None:
    assert meets(wanted, [shown])


@pytest.mark.parametrize(
    ("wanted", "shown"),
    [
        ("EN 50549-1", "EN 50549-10"), ("EN 50549-10", "EN 50549-1"), ("EN 50549-1", "EN 50549"),
        ("EN 50549-1", "EN 150549-1"), ("EN 50549-1", "EN 505491"), ("EN 50549-1", "50549-1"),
        ("VDE-AR-N 4105", "4105"), ("VDE-AR-N 4105", "EN 4105"), ("DIN VDE V 0126-95", "DIN VDE 0126-1-1"),
        ("G98 / EN 50549-1", "G99"), ("G98", "G98/1"), ("UL 1741", "UL 17410"), ("CE marking", "CE"),
        ("DIN EN 62109-1/-2", "EN 62109-1"), ("SP 30:2023 part 8", "SP 30"), ("UL or equal laboratory", "UL 1741"),
    ],
)  # fmt: skip
def test_another_standard_or_another_part_is_not_the_one_asked_for(wanted: str, shown: str) -> None:
    assert not meets(wanted, [shown])


def test_several_parts_may_be_shown_on_several_papers() -> None:
    assert meets("DIN EN 62109-1/-2", ["EN 62109-1", "EN 62109-2"])
    assert meets("AS/NZS 4777 series, AS/NZS 3000", ["AS/NZS 3000", "AS/NZS 4777.1"])
    assert not meets("AS/NZS 4777 series, AS/NZS 3000", ["AS/NZS 4777.1"])
