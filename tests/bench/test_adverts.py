"""The bench of adverts tells what reading costs beside its goal."""

import json

import pytest

from service.bench import adverts


@pytest.mark.parametrize(("years", "told"), [(7.8, "met"), (7.9, "not met")])
def test_the_cost_is_told_beside_its_goal(years, told, tmp_path, monkeypatch, capsys):
    row = {"title": "Solar panel 410 W", "body": "£40", "asking_price_text": None, "true": {"kind": "panel"}}
    file = tmp_path / "adverts.jsonl"
    file.write_text(json.dumps(row), encoding="utf-8")
    monkeypatch.setattr(adverts, "cost", lambda *_: {"cpu_ms_of_200": 1.0, "years_by_hand_of_200": years})
    assert adverts.main([str(file)]) == 0
    line = next(line for line in capsys.readouterr().out.splitlines() if line.startswith("years_by_hand_of_200"))
    assert line.endswith(f"goal: at most 7.8, {told}")


def test_the_longest_adverts_are_timed_as_they_stand() -> None:
    bodies = ["x" * 3000, "a" * 600, "b" * 20, "c" * 900]
    rows = [{"title": "Panel", "body": body, "asking_price_text": None} for body in bodies]
    longest, signs = adverts.longest_adverts(rows)
    assert [advert.body for advert in longest] == [bodies[1], bodies[3]] * (adverts.ADVERTS // 2)
    assert signs == (600 + 900 + 2 * len("Panel")) * (adverts.ADVERTS // 2)
    assert {advert.body for advert in adverts.longest_adverts(rows[2:3])[0]} == {bodies[2]}


def test_joined_adverts_are_one_kb_of_several() -> None:
    rows = [{"body": "a" * 600}, {"body": "b" * 30}, {"body": "c" * 700}]
    joined = adverts.joined_adverts(rows)
    assert len(joined) == adverts.ADVERTS
    assert joined[0].body == f"{'a' * 600}\n{'b' * 30}\n{'c' * 368}"
