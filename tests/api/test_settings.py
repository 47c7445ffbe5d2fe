from dataclasses import fields

import pytest

from service.settings import PREFIX, TABLE, Settings, SettingsError, from_environment, table_rows


def test_every_setting_stands_in_the_table_once() -> None:
    assert [row.field for row in TABLE] == [field.name for field in fields(Settings)]
    assert all(says and variable.startswith(PREFIX) for variable, _, says in table_rows())


def test_an_empty_environment_gives_the_defaults() -> None:
    assert from_environment({}) == Settings()
    assert from_environment({"PATH": "/bin"}) == Settings()


def test_every_default_can_be_written_in_the_environment() -> None:
    assert from_environment({variable: default for variable, default, _ in table_rows()}) == Settings()


def test_lists_are_separated_by_commas() -> None:
    read = from_environment({"SUNSILL_CORS_ORIGINS": "https://a.example, http://localhost:3000"})
    assert read.cors_origins == ("https://a.example", "http://localhost:3000")


def test_all_faults_are_told_at_once() -> None:
    environment = {
        "SUNSILL_PORT": "99999", "SUNSILL_WORKERS": "many", "SUNSILL_COLOUR": "red", "SUNSILL_LOG_LEVEL": "loud",
        "SUNSILL_CORS_ORIGINS": "not an origin", "SUNSILL_BODY_SECONDS": "nan",
    }  # fmt: skip
    with pytest.raises(SettingsError) as error:
        from_environment(environment)
    for name in environment:
        assert name in str(error.value)
