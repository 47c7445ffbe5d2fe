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
