"""The log-in page in a browser: a key opens the pages, and no script can read it."""

from __future__ import annotations

from playwright.sync_api import Browser, expect

from tests.api.bodies import a_service
from tests.api.test_firms import a_key
from tests.pages.browsers import served


def test_a_key_opens_the_page_that_was_asked_for(browser: Browser) -> None:
    app = a_service(public=True, workers=0)
    with served(app) as address:
        context = browser.new_context(base_url=address)
        page = context.new_page()
        page.goto("/rack")
        page.wait_for_url("**/log-in?next=%2Frack")
        page.get_by_label("Key").fill("sk_wrong")
        page.get_by_role("button", name="Log in").click()
        expect(page.get_by_role("alert")).to_contain_text("not known")

        page.get_by_label("Key").fill(a_key(app, "ours", "read"))
        page.get_by_role("button", name="Log in").click()
        page.wait_for_url("**/rack")
        expect(page.locator("#who")).to_contain_text("test")
        # A key that only reads is offered nothing that changes things.
        expect(page.get_by_role("button", name="Add an offcut")).to_be_hidden()
        assert page.evaluate("document.cookie") == ""

        page.get_by_role("button", name="Log out").click()
        page.wait_for_url("**/log-in")
        page.goto("/jobs")
        page.wait_for_url("**/log-in?next=%2Fjobs")
        context.close()
