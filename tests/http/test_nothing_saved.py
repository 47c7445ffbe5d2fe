"""Where two bills are the same but for rounding, is nothing said to be paid back, rather than in 10^14 years?"""

from tests.http.client import PLAIN, post

# The plant on the roof leaves so much that all of the bill is netted without the set.
BESIDE_A_ROOF = {
    **PLAIN,
    "energy": {"year_kwh": 640},
    "use": {
        "self_used_share": 0.01,
        "demand_kwh": 300,
        "other_generation": {"year_kwh": 7000, "self_used_kwh": 200},
    },
    "meter": {"netting": "year"},
    "tariff": {
        "currency": "EUR",
        "periods": [{"valid_from": "2026-01-01", "import_price_per_kwh": 0.3, "export": "netted",
                     "export_price_per_kwh": 0}],
    },
}  # fmt: skip


def test_a_set_that_saves_nothing_is_never_paid_back() -> None:
    answer = post("/v1/payback", BESIDE_A_ROOF)
    assert answer.status_code == 200, answer.text
    told = answer.json()["payback"]
    assert told["saving_first_year"] == {"cautious": 0.0, "middle": 0.0, "hopeful": 0.0}
    for name in ("simple_payback_years", "discounted_payback_years", "lasting_payback_years"):
        assert set(told[name].values()) == {None}, (name, told[name])
    assert told["internal_rate_of_return_share"] in (None, {"cautious": None, "middle": None, "hopeful": None})
