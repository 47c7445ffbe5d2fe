"""Do adverts, shortlists and checks at the door read as text and as a page, and does nothing a stranger wrote run?"""

import json
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

from tests.http.client import ask, post

EXAMPLES = Path(__file__).parents[2] / "examples"
SHORTLIST = json.loads((EXAMPLES / "adverts/kranichwerft_shortlist.json").read_text("utf-8"))
DOOR = json.loads((EXAMPLES / "pickup/three_panels.json").read_text("utf-8"))
READING = {"adverts": [{name: one[name] for name in ("id", "title", "body", "price_text") if name in one}
                       for one in SHORTLIST["adverts"]]}  # fmt: skip
QUESTIONS = {"/v1/adverts/reading": READING, "/v1/adverts/shortlist": SHORTLIST, "/v1/pickup-check": DOOR}
# All that a page or a piece of one is made of.
TAGS = {"html", "head", "meta", "title", "style", "body", "main", "section", "h1", "h2", "h3", "p", "small", "ol", "ul",
        "li", "strong", "bdi", "span"}  # fmt: skip
SCRIPT = "<script>alert(1)</script><img src=x onerror=alert(2)>\"'&amp;"
UNSEEN = "\u202e\u200b\x1b[2J"
HOSTILE = f"{SCRIPT}{UNSEEN}"


class Seen(HTMLParser):
    """Tags, attributes and text of a page."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: set[str] = set()
        self.open: list[str] = []
        self.words: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes |= {name for name, _ in attrs}
        if tag != "meta":
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if "style" not in self.open:
            self.words.append(data)

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())


def page_of(path: str, request: Any, query: str = "") -> tuple[Seen, str]:
    answer = post(f"{path}{query}", request, accept="text/html")
    assert answer.status_code == 200, answer.text
    assert answer.headers["content-type"] == "text/html; charset=utf-8"
    assert "default-src 'none'" in answer.headers["content-security-policy"]
    seen = Seen(answer.text)
    assert not seen.open
    assert set(seen.tags) <= TAGS
    assert seen.attributes <= {"lang", "charset", "name", "content"}
    return seen, answer.text


def hostile(path: str) -> dict[str, Any]:
    if path == "/v1/pickup-check":
        return {**DOOR, "readings": [{**one, "panel": SCRIPT[:38]} for one in DOOR["readings"]]}
    body = f"4 Solarmodule 400 Wp {HOSTILE} Voc 37,1 V, Isc 13,9 A, {HOSTILE} 45 € pro Stück, {SCRIPT}"
    advert = {"id": HOSTILE[:80], "title": f"4 Solarmodule {HOSTILE}", "body": body, "price_text": f"45 € {HOSTILE}"}
    kept = READING["adverts"] if path == "/v1/adverts/reading" else SHORTLIST["adverts"]
    return {**QUESTIONS[path], "adverts": [advert, *kept]}


@pytest.mark.parametrize("path", QUESTIONS)
def test_a_page_says_what_the_text_says_within_72_columns(path: str) -> None:
    text = post(path, QUESTIONS[path], accept="text/plain")
    assert text.headers["content-type"] == "text/plain; charset=utf-8"
    assert max(map(len, text.text.split("\n"))) <= 72
    page, _ = page_of(path, QUESTIONS[path])
    shown = page.text.replace(" ", "")
    for line in text.text.split("\n"):
        words = line.strip().lstrip("-0123456789. ")
        if words.strip("-"):
            assert words.replace(" ", "") in shown, line


@pytest.mark.parametrize("path", QUESTIONS)
def test_a_piece_to_be_embedded_says_the_same_without_head_and_style(path: str) -> None:
    whole, _ = page_of(path, QUESTIONS[path])
    piece, text = page_of(path, QUESTIONS[path], "?part=fragment")
    assert text.startswith("<section")
    assert not {"html", "head", "style", "body"} & set(piece.tags)
    assert whole.text.endswith(piece.text)
    assert piece.tags.count("li") == whole.tags.count("li") > 3


@pytest.mark.parametrize("path", QUESTIONS)
def test_other_parts_of_a_page_are_refused_and_other_formats_pass_the_word_over(path: str) -> None:
    for query in ("?part=head", "?part=fragment&part=fragment"):
        refused = post(f"{path}{query}", QUESTIONS[path], accept="text/html")
        assert refused.status_code == 422
        assert "fragment" in Seen(refused.text).text
    whole = post(path, QUESTIONS[path], accept="text/html").text
    assert post(f"{path}?other=1", QUESTIONS[path], accept="text/html").text == whole
    assert post(f"{path}?part=fragment", QUESTIONS[path]).json() == post(path, QUESTIONS[path]).json()


@pytest.mark.parametrize("path", QUESTIONS)
@pytest.mark.parametrize("query", ["", "?part=fragment"])
def test_what_a_stranger_wrote_is_shown_and_never_runs(path: str, query: str) -> None:
    page, raw = page_of(path, hostile(path), query)
    assert "<script>" in page.text
    assert "&lt;script&gt;" in raw
    for text in (raw, post(path, hostile(path), accept="text/plain").text):
        assert not any(mark in text for mark in (*"\u202e\u200b\x1b\x00",))


@pytest.mark.parametrize("path", QUESTIONS)
def test_the_document_lists_the_formats_and_the_part(path: str) -> None:
    operation = ask("GET", "/openapi.json").json()["paths"][path]["post"]
    assert set(operation["responses"]["200"]["content"]) == {"application/json", "text/plain", "text/html"}
    assert [one["name"] for one in operation["parameters"] if "name" in one] == ["part"]


def test_a_shortlist_on_paper_names_whom_to_ring_up_what_to_bid_and_why_others_fell_out() -> None:
    answer = post("/v1/adverts/shortlist", SHORTLIST).json()
    page, _ = page_of("/v1/adverts/shortlist", SHORTLIST)
    for one in answer["shortlist"]:
        assert " + ".join(one["adverts"]) in page.text
        assert one["bid_because"]["text"] in page.text
        for asked in one["ask"]:
            assert asked["seller_text"] in page.text
    for one in answer["adverts"]:
        if one["because"]:
            assert one["because"]["text"] in page.text


def test_a_reading_on_paper_shows_the_words_of_each_claim() -> None:
    page, _ = page_of("/v1/adverts/reading", READING)
    for one in post("/v1/adverts/reading", READING).json()["readings"]:
        assert f"Advert {one['id']}" in page.text
        for claim in one["claims"]:
            assert f'("{claim["words"]}")' in page.text
        for doubt in one["doubts"]:
            assert doubt["text"] in page.text
