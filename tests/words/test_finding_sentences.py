"""Every finding and remedy can be said, with its numbers, and no sentence calls a thing safe or legal."""

import re
from string import Formatter
from typing import Any

import pytest
from hypothesis import given

from service.api.schemas.finding import FindingOut
from service.api.words import template_of
from service.api.words.english import findings as finding_words
from service.api.words.english import names as name_words
from service.api.words.english import remedies as remedy_words
from service.core.model.facts import Setup
from tests.properties.compatibility_strategies import asked, setups
from tests.requests import SMALLEST
from tests.requests import asked as completed_of

ALL = {**finding_words.TEXTS, **remedy_words.TEXTS}


@given(setups())
def test_every_finding_and_every_remedy_has_a_sentence_that_its_facts_fill(setup: Setup) -> None:
    for finding in asked(setup).findings:
        variant = finding.facts.get("variant") or ""
        template = template_of("findings", f"{finding.code}.{finding.verdict}.{variant}".rstrip("."))
        assert template is not None, (finding.code, finding.verdict)
        numbers = {"measured": finding.measured, "limit": finding.limit, "unit": finding.unit, "input": finding.input}
        said = Formatter().vformat(template, (), {**numbers, **finding.facts})
        assert "None" not in said, said
        for remedy in finding.remedies:
            key = f"{remedy.code}.{remedy.facts.get('variant') or ''}".rstrip(".")
            words = template_of("remedies", key)
            assert words is not None, key
            facts = {"new_value": remedy.new_value, "unit": remedy.unit, **remedy.facts}
            filled = Formatter().vformat(words, (), facts)
            assert "None" not in filled, filled


SPARSE = [
    {"arrays": [{"panel": {"rated_power_w": watts}, **more}] * count, "inverter": {"ac_power_w": ac_w}, **outside}
    for watts in (300, 440) for ac_w in (300, 600, 1600) for count in (1, 2)
    for more in ({}, {"count": 2, "joined": "parallel", "input": 1}, {"count": 3, "joined": "series", "input": 1})
    for outside in ({}, {"socket_circuit": {"plug": "household"}})
]  # fmt: skip


@pytest.mark.parametrize("request_", SPARSE, ids=range(len(SPARSE)))
def test_what_is_found_of_a_set_of_which_little_was_told_has_a_sentence_too(request_: dict[str, Any]) -> None:
    completed = completed_of({**SMALLEST, **request_})
    for finding in asked(completed.setup, completed.assumptions).findings:
        variant = finding.facts.get("variant") or ""
        key = f"{finding.code}.{finding.verdict}.{variant}".rstrip(".")
        assert template_of("findings", key) is not None, key


@pytest.mark.parametrize("key", sorted(ALL))
def test_no_sentence_says_safe_or_legal(key: str) -> None:
    assert not re.search(r"(?i)\b(safe|safely|legal|legally|illegal|allowed)\b", ALL[key])
    assert ALL[key].endswith((".", "}"))


NO_FACTS = {"", "datasheet_sanity", "connectors", "certificate", "new_circuit", "strings"}  # nothing of a request
FIELD_NAME = re.compile(r"[a-z]+_[a-z_]*[a-z]")


@given(setups())
def test_no_sentence_shows_a_person_the_name_of_a_field(setup: Setup) -> None:
    for finding in asked(setup).findings:
        out = FindingOut.of(finding, 0)
        for text in (out.text, *(remedy.text for remedy in out.remedies)):
            assert not FIELD_NAME.search(text), text


def test_every_fact_that_may_be_asked_for_has_a_name_in_words() -> None:
    asked_for = {key.partition(".")[2] for key in remedy_words.TEXTS if key.startswith(("ask_seller.", "ask_elec"))}
    assert asked_for - NO_FACTS <= set(name_words.TEXTS)
