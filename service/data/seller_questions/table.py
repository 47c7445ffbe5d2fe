"""How are the questions to sellers read? Code -> language (ISO 639-1) -> the sentence; English is always there."""

import json
from collections.abc import Mapping
from importlib.resources import files


def load_seller_questions() -> Mapping[str, Mapping[str, str]]:
    """The packaged questions."""
    raw: dict[str, dict[str, str]] = json.loads(
        files(__package__).joinpath("questions.json").read_text(encoding="utf-8")
    )
    return raw
