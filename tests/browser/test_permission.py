"""What may the extension do, and what leaves the browser?"""

import json
from pathlib import Path

from tests.browser.chromium import Chromium, Tab
from tests.browser.conftest import EXAMPLE, HOME, Kept, Page
from tests.browser.servers import Door


def test_the_manifest_asks_for_nothing_but_storage_and_on_saving_for_loopback() -> None:
    manifest = json.loads((EXAMPLE / "extension" / "manifest.json").read_text(encoding="utf-8"))
    loopback = ["http://127.0.0.1/*", "http://localhost/*"]
    assert manifest["manifest_version"] == 3
    assert manifest["permissions"] == ["storage"]
    assert manifest["optional_host_permissions"] == loopback
    assert [script["matches"] for script in manifest["content_scripts"]] == [loopback]
    refused = {"host_permissions", "optional_permissions", "web_accessible_resources", "externally_connectable"}
    assert refused & set(manifest) == set()
    policy = dict(
        part.strip().split(" ", 1) for part in manifest["content_security_policy"]["extension_pages"].split(";")
    )
    assert policy["default-src"] == "'none'"
    assert policy["script-src"] == "'self'"
    assert policy["connect-src"] == "http://127.0.0.1:* http://localhost:*"


def asked_for(tab: Tab, pattern: str) -> str:
    """What comes of asking for leave; nobody answers the browser's question."""
    asked = f"chrome.permissions.request({{origins: [{json.dumps(pattern)}]}}).then(String, String)"
    patience = "new Promise(done => setTimeout(done, 500, 'the user is asked'))"
    return str(tab.script(f"Promise.race([{asked}, {patience}])"))


def test_before_it_is_given_leave_it_asks_nobody_and_says_so(
    program: str, door: Door, page_address: str, outside: tuple[str, list[str]], tmp_path: Path
) -> None:
    door.straight()
    unchanged = Chromium(program, tmp_path, EXAMPLE / "extension", outside[0])
    try:
        with unchanged.opened(unchanged.extension() + "settings/settings.html") as tab:
            Kept(tab, door).keep(address=door.address, **HOME)
            assert "Only permissions specified in the manifest" in asked_for(tab, "http://127.0.0.2:8080/*")
            assert asked_for(tab, f"{door.address}/*") == "the user is asked"
        with unchanged.opened(page_address) as tab:
            page = Page(tab)
            assert f"does not let Sunsill ask {door.address} yet" in page.notice()
            assert page.facts() == [{}] * 12
    finally:
        unchanged.close()
    assert door.asked == []


def test_nothing_leaves_to_another_host_than_the_pages_and_the_services(
    page: Page, browser: Chromium, page_address: str, nobody: str, door: Door, outside: tuple[str, list[str]]
) -> None:
    """Over all that this run did. The way to other hosts is a proxy that notes whatever it is asked for."""
    seen = outside[1]
    assert page.facts()
    home = ("chrome-extension://", "data:", "about:", page_address, f"{door.address}/", f"{nobody}/")
    assert any(url.startswith(door.address) for url in browser.asked)
    assert [url for url in browser.asked if not url.startswith(home)] == []
    assert seen == []
    page.tab.script("fetch('http://outside.invalid/').catch(() => 0)")  # would be noted
    assert seen == ["GET http://outside.invalid/"]
    seen.clear()
    browser.asked.clear()
