"""Does a page of adverts get what the service says of them, and nothing else?"""

import json
import re
from html.parser import HTMLParser
from typing import Any

import pytest

from tests.browser.chromium import Chromium, Tab
from tests.browser.colours import ENOUGH, least_contrast
from tests.browser.conftest import EXAMPLE, Kept, Page
from tests.browser.servers import Door, Reply, posted

READING = "/v1/adverts/reading"
SHORTLIST = "/v1/adverts/shortlist"
NOT_KNOWN = "not known"
HOSTILE = "<img src=x onerror='window.boardTaken=1'><script>window.boardTaken=1</script>"
OPEN_ALL = "document.querySelectorAll('details').forEach(one => { one.open = true; })"


class Board(HTMLParser):
    """The adverts of the notice board, read without a browser."""

    def __init__(self) -> None:
        super().__init__()
        self.adverts: list[dict[str, str]] = []
        self._part: str | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "article":
            self.adverts.append({"title": "", "price": "", "body": ""})
        self._part = dict(attrs).get("data-part", self._part)

    def handle_endtag(self, tag: str) -> None:
        if tag == "article":
            self._part = None

    def handle_data(self, data: str) -> None:
        if self._part is not None:
            self.adverts[-1][self._part] += data


def on_board() -> list[dict[str, str]]:
    board = Board()
    board.feed((EXAMPLE / "page" / "index.html").read_text(encoding="utf-8"))
    return [{part: text.strip() for part, text in advert.items()} for advert in board.adverts]


def body_on(path: str, asked: list[tuple[str, Any]]) -> Any:
    """What was asked on a path, once."""
    [body] = [body for on, body in asked if on == path]
    return body


def answered(door: Door, path: str, body: Any) -> Any:
    """What the service answers to that, asked again without a browser."""
    status, _, answer = posted(door.service + path, json.dumps(body).encode())
    assert status == 200
    return json.loads(answer)


@pytest.fixture(scope="module")
def readings(page: Page, door: Door) -> list[dict[str, Any]]:
    """What the service answers to the question that the page asked."""
    found = answered(door, READING, body_on(READING, page.asked))
    return list(found["readings"])


@pytest.fixture(scope="module")
def listed(page: Page, door: Door) -> dict[str, Any]:
    """The same of the shortlist."""
    return dict(answered(door, SHORTLIST, body_on(SHORTLIST, page.asked)))


def test_every_advert_is_annotated_by_one_question_for_readings_and_one_for_the_shortlist(
    page: Page, browser: Chromium
) -> None:
    board = on_board()
    assert len(board) == 12
    assert [len(found) for found in page.texts("section.sunsill")] == [1] * 12
    assert sorted(path for path, _ in page.asked) == [READING, SHORTLIST]
    for _, asked in page.asked:
        sent = [{"title": one["title"], "price": one["price_text"], "body": one["body"]} for one in asked["adverts"]]
        assert sent == board
    assert browser.faults == []


def test_figures_are_those_that_the_service_answers(
    page: Page, readings: list[dict[str, Any]], listed: dict[str, Any]
) -> None:
    facts = page.facts()
    assert [told.get("per_watt") for told in facts] == [per_watt(one) for one in readings]
    assert [told.get("fit") for told in facts] == [fit(one, listed) for one in readings]
    assert [told.get("payback") for told in facts] == [payback(one, listed) for one in readings]
    assert page.texts(".sunsill-doubts li") == [[doubt["text"] for doubt in one["doubts"]] for one in readings]
    assert (
        len({told.get("fit") for told in facts}) >= 3
    )  # the board has adverts that fit, that do not, and unknown ones
    assert sum("payback" in told for told in facts) >= 8


def per_watt(reading: dict[str, Any]) -> str | None:
    if reading["kind"] != "panel" or not reading["is_offer"]:
        return None
    price = reading["price"]
    return f"{price['currency']} {price['per_watt']:.3f}"


def set_of(reading: dict[str, Any], listed: dict[str, Any]) -> dict[str, Any] | None:
    sets = [one for one in listed["shortlist"] if reading["id"] in one["adverts"]]
    alone = [one for one in sets if len(one["adverts"]) == 1]
    mine = [one for one in sets if one["inverter"] is None]
    return next(iter([*alone, *mine, *sets]), None)


def fit(reading: dict[str, Any], listed: dict[str, Any]) -> str | None:
    found = set_of(reading, listed)
    if found is None:
        [row] = [one for one in listed["adverts"] if one["advert"] == reading["id"]]
        return "does not fit" if row["because"]["code"] in {"does_not_fit", "refused"} else None
    if found["verdict"] == "not_known":
        worst = {"does_not_fit": " (at worst: does not fit)", "fits_with_loss": " (at worst: fits, with loss)"}
        return NOT_KNOWN + worst.get(found["likely"], "")
    return {"fits": "fits", "fits_with_loss": "fits, with loss", "does_not_fit": "does not fit"}[found["verdict"]]


def payback(reading: dict[str, Any], listed: dict[str, Any]) -> str | None:
    found = set_of(reading, listed)
    if found is None:
        return None
    return ", ".join(f"{end} {years:.1f}" for end, years in found["simple_payback_years"].items())


def test_what_is_no_offer_of_panels_or_inverters_is_called_so(page: Page) -> None:
    kinds = [told.get("kind") for told in page.facts()]
    assert kinds[6:8] == ["No offer", "Neither panel nor inverter"]
    assert [at for at, kind in enumerate(kinds) if kind] == [6, 7]
    assert page.texts(".sunsill-because")[6] == ["Nothing is on offer here."]


def test_a_rating_that_is_not_told_is_not_known_and_the_seller_is_asked_in_his_language(page: Page) -> None:
    spanish = "document.querySelectorAll('article')[4]"
    ratings = page.tab.script(
        f"Object.fromEntries([...{spanish}.querySelectorAll('.sunsill-ratings dd')].map(one => "
        "[one.dataset.fact, one.textContent]))"
    )
    assert ratings["rated_power_w"] == "410 W"
    assert ratings["open_circuit_voltage_v"] == NOT_KNOWN
    assert ratings["short_circuit_current_a"] == NOT_KNOWN
    assert page.facts()[4]["fit"].startswith(NOT_KNOWN)
    asked = page.tab.script(f"[...{spanish}.querySelectorAll('.sunsill-asks [lang=es]')].map(one => one.textContent)")
    assert any("circuito abierto" in text for text in asked)


def test_what_was_taken_for_sending_and_for_the_way_is_told_in_the_details(page: Page, door: Door) -> None:
    answer = answered(door, SHORTLIST, body_on(SHORTLIST, page.asked))
    shown = page.texts(".sunsill-assumed li")
    for at, advert in enumerate(answer["adverts"]):
        alone = [one for one in answer["shortlist"] if one["adverts"] == [advert["advert"]]]
        for taken in alone[0]["assumptions"] if alone else ():
            what, way, _ = taken["text"].partition(" Tell the way to it")  # no page of the extension has a field for it
            [said] = [text for text in shown[at] if what in text]
            assert not way or ("Ask the seller." in said) == ("ask the seller" in taken["text"])
            if taken["low"] is not None:
                assert said.endswith(f"EUR {taken['value']:.0f} ({taken['low']:.0f} to {taken['high']:.0f}).")
    assert any("EUR" in text for told in shown for text in told)
    assert any("How far away" in text for told in shown for text in told)
    assert not any("Tell the way" in text or "what a kilometre costs" in text for told in shown for text in told)


def test_beside_what_would_be_earned_back_stands_what_holds_it(page: Page, listed: dict[str, Any]) -> None:
    """The extension knows no price of a new set."""
    words = " ".join(page.tab.script("document.body.textContent").split())
    assert {one["bid_because"]["code"] for one in listed["shortlist"]} == {"no_new_price"}
    assert "A new set from a shop may cost far less: look one up before you offer." in words
    assert any(bid["beside_others"] is not None for one in listed["shortlist"] for bid in one["bids"])
    assert re.search(r"Above \S+\s?\S+ another set here does better\.", words)


def test_nothing_is_called_safe_or_legal(page: Page) -> None:
    page.tab.script(OPEN_ALL)
    said = page.tab.script("[...document.querySelectorAll('.sunsill')].map(one => one.innerText).join(' ')")
    assert "local codes" in said
    assert re.findall(r"\b(?:un)?(?:safe|legal)\w*", said, flags=re.IGNORECASE) == []


def inert(tab: Tab) -> bool:
    foreign = "document.querySelectorAll('.sunsill :is(script, img, b, iframe, a, style, object)').length"
    return bool(tab.script(f"{foreign} === 0 && window.boardTaken === undefined"))


def test_markup_of_an_advert_stays_text(page: Page) -> None:
    assert inert(page.tab)
    label = page.tab.script("document.querySelectorAll('section.sunsill')[5].getAttribute('aria-label')")
    assert '<b onmouseover="window.boardTaken=1">' in label
    assert any("markup" in text for text in page.texts(".sunsill-doubts li")[5])


def test_markup_in_an_answer_stays_text(browser: Chromium, page_address: str, settings: Kept, door: Door) -> None:
    settings.at_home()
    door.instead = spoilt
    with browser.opened(page_address) as tab:
        page = Page(tab)
        page.notice()
        tab.script(OPEN_ALL)
        press_cautions(tab)
        assert HOSTILE in tab.script("document.querySelector('.sunsill-cautions').textContent")
        assert HOSTILE in tab.script("document.querySelector('.sunsill-notice').textContent")
        assert all(HOSTILE in text for texts in page.texts(".sunsill-because")[6:9] for text in texts)
        assert inert(tab)


def test_a_double_is_told_with_the_set_of_the_advert_that_it_repeats(
    browser: Chromium, page_address: str, settings: Kept, door: Door
) -> None:
    settings.at_home()
    door.instead = doubled
    with browser.opened(page_address) as tab:
        page = Page(tab)
        page.notice()
        first, second = page.facts()[:2]
        assert (second["fit"], second["payback"]) == (first["fit"], first["payback"])
        [words], [again] = page.texts(".sunsill-because")[:2]
        assert again == f"The same once more as “{on_board()[0]['title']}”. {words}"


def doubled(reply: Reply) -> Reply:
    """The second advert is the first one once more."""
    status, headers, body = reply
    answer = json.loads(body)
    for row in answer.get("adverts", ()):
        if row["advert"] == "advert 2":
            row["double_of"] = "advert 1"
    return status, headers, json.dumps(answer).encode()


def spoilt(reply: Reply) -> Reply:
    """Each sentence of an answer in place of which markup stands."""
    status, headers, body = reply
    return status, headers, json.dumps(with_markup(json.loads(body))).encode()


def with_markup(part: Any) -> Any:
    if isinstance(part, list):
        return [with_markup(one) for one in part]
    if not isinstance(part, dict):
        return part
    spoken = {"text", "seller_text", "severity", "currency"}
    return {name: HOSTILE if name in spoken else with_markup(value) for name, value in part.items()}


def press_cautions(tab: Tab) -> None:
    tab.script("document.querySelector('section.sunsill details button').focus()")
    tab.press("Enter")
    tab.until("document.querySelector('.sunsill-cautions li')")


def test_cautions_and_steps_come_from_the_appraisal_of_the_set_when_asked_for(
    page: Page, door: Door, listed: dict[str, Any]
) -> None:
    door.straight()
    page.tab.script(OPEN_ALL)
    press_cautions(page.tab)
    [(path, body)] = door.asked
    assert path == "/v1/appraisal"
    assert body == next(one for one in listed["shortlist"] if one["adverts"] == ["advert 1"])["request"]
    answer = answered(door, path, body)
    shown = page.texts(".sunsill-cautions li")[0]
    cautions = [f"{one['severity']}: {one['text']}" for one in answer["cautions"]]
    assert sorted(shown) == sorted(cautions + [one["text"] for one in answer["steps"]])
    assert len(cautions) > 5


def test_the_focus_stays_on_the_button_that_asks_for_cautions_and_it_asks_again(fresh_page: Page, door: Door) -> None:
    tab, focused = fresh_page.tab, "document.activeElement.textContent"
    tab.script(OPEN_ALL)
    door.straight()
    for times in (1, 2):
        tab.script("document.querySelector('.sunsill-cautions').replaceChildren()")
        if times == 1:
            tab.script("document.querySelector('section.sunsill details button').focus()")
        tab.press("Enter")
        assert tab.script(focused) == "Cautions and next steps for this set"
        tab.until("document.querySelector('.sunsill-cautions li')")
        assert tab.script(focused) == "Cautions and next steps for this set"
        assert [path for path, _ in door.asked] == ["/v1/appraisal"] * times


def test_where_no_price_is_known_the_page_says_by_what_the_sets_stand_and_names_nothing_that_it_lacks(
    browser: Chromium, page_address: str, settings: Kept
) -> None:
    settings.at_home(latitude_deg=-33.0, longitude_deg=148.0)
    with browser.opened(page_address) as tab:
        page = Page(tab)
        said = page.notice()
        assert "the least outlay for each yearly kWh first" in said
        assert "payback first" not in said
        assert "Amounts are in EUR." in said
        tab.script(OPEN_ALL)
        whole = tab.script("[...document.querySelectorAll('.sunsill')].map(one => one.innerText).join(' ')")
        assert "No price per kWh is known for your place" in whole
        assert "`" not in whole
        assert "tariff" not in whole
        assert any("EUR" in text and " in all" in text for texts in page.texts(".sunsill-because") for text in texts)


def test_the_notice_says_by_what_the_sets_stand_and_in_which_currency(page: Page) -> None:
    said = page.tab.script("document.querySelector('.sunsill-notice').innerText")
    assert "the shortest cautious payback first. Amounts are in EUR." in said


def given_away(reply: Reply) -> Reply:
    """The goods of the first advert cost nothing, and nothing comes with them."""
    status, headers, body = reply
    answer = json.loads(body)
    for reading in answer.get("readings", ())[:1]:
        reading["price"] = {**reading["price"], "value": 0, "each": 0, "per_watt": 0, "currency": None}
    for one in answer.get("shortlist", ()):
        if one["adverts"] == ["advert 1"]:
            one["outlay"], one["request"]["outlay"], one["bids"][0]["asked"] = 0, {"items": []}, 0
            answer["notes"].append(
                {"code": "of_later", "facts": {}, "text": "This stays. Send `a_part` of it. So does this."}
            )
    return status, headers, json.dumps(answer).encode()


def test_what_is_given_away_is_called_so_and_what_does_not_count_is_told(
    browser: Chromium, page_address: str, settings: Kept, door: Door
) -> None:
    settings.at_home()
    door.instead = given_away
    with browser.opened(page_address) as tab:
        page = Page(tab)
        page.notice()
        told, [words], paid = page.facts()[0], *page.texts(".sunsill-because")[:2]
        assert (told["each"], told["per_watt"]) == ("given away", "given away")
        assert "nothing to pay in all, brackets and leads not counted, " in words
        assert " in all, " in paid[0]
        assert "not counted" not in paid[0]
        notes = tab.script("document.querySelector('.sunsill-notice ul').textContent")
        assert "This stays. So does this." in notes
        assert any("Nothing is asked for" in text for text in page.texts(".sunsill-part")[0])


def test_the_keyboard_alone_opens_and_closes_the_details_and_the_focus_is_seen(fresh_page: Page) -> None:
    tab = fresh_page.tab
    opened = []
    offers = [n for n in range(1, 13) if n not in {7, 8}]
    for _ in range(1 + len(offers)):  # the notes above, then each advert that has details
        tab.press("Tab")
        where = tab.script("document.activeElement.closest('section.sunsill')?.getAttribute('aria-label') ?? ''")
        if tab.script("document.activeElement.tagName") != "SUMMARY" or not where:
            continue
        outline = "(({outlineStyle, outlineWidth}) => outlineStyle + ' ' + outlineWidth)"
        assert tab.script(f"{outline}(getComputedStyle(document.activeElement))") == "solid 3px"
        for key, is_open in (("Enter", True), ("Enter", False)):
            tab.press(key)
            assert tab.script("document.activeElement.parentElement.open") is is_open
        opened.append(where)
    assert [label.split(":")[0] for label in opened] == [f"Sunsill on advert {n}" for n in offers]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_text_can_be_read_in_both_schemes(page: Page, scheme: str) -> None:
    page.tab.scheme(scheme)
    page.tab.script(OPEN_ALL)
    paper = page.tab.script("getComputedStyle(document.querySelector('.sunsill')).backgroundColor")
    assert (sum(map(int, re.findall(r"\d+", paper))) > 384) is (scheme == "light")
    contrast, text = least_contrast(page.tab, "body")
    assert contrast >= ENOUGH, text
