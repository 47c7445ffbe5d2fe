"""How the tables of adverts' words are read: by language, each name once."""

import json
from pathlib import Path

import pytest

import service.data.advert_words as room
from service.core.model.advert_words import COMMON
from service.data.advert_words import LANGUAGES, load_advert_words
from service.data.advert_words.table import named_once

WORDS = load_advert_words()


def test_every_file_is_a_language_and_is_read_whole():
    files = {path.stem: path for path in Path(room.__file__).parent.glob("*.json")}
    assert files.keys() == {COMMON, *LANGUAGES} == WORDS.meanings.keys() == WORDS.small_words.keys()
    for language, path in files.items():
        table = json.loads(path.read_text(encoding="utf-8"))
        roles = table.pop("small words")
        assert WORDS.meanings[language].keys() == table.keys()
        assert WORDS.small_words[language].keys() == roles.keys()


def test_phrases_are_split_at_semicolons():
    assert {"ignore", "forget"} <= set(WORDS.small_words["en"]["order_aside"])
    assert "ci" in WORDS.small_words["fr"]["order_small"]
    assert not any(
        ";" in word or not word for roles in WORDS.small_words.values() for row in roles.values() for word in row
    )


def test_a_name_that_stands_twice_is_refused():
    with pytest.raises(ValueError, match="named twice: per"):
        json.loads('{"small words": {"per": "pro", "own": "mein", "per": "je"}}', object_pairs_hook=named_once)
