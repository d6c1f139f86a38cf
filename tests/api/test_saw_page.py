"""The saw view as it is sent: the same for every plan, and kept by its worker as one version."""

from __future__ import annotations

import json
import re

import pytest

from api.shell import WEB
from tests.api.bodies import Caller, a_service


@pytest.fixture(scope="module")
def service() -> Caller:
    return Caller(a_service(public=True))


def test_the_page_is_the_same_for_every_plan_and_runs_only_our_files(service: Caller) -> None:
    one, other = service.get("/saw/plan-1"), service.get("/saw/any")

    assert one.text == other.text
    assert one.status_code == 200
    assert "unsafe" not in one.headers["content-security-policy"]
    assert not re.search(r"<script(?![^>]*\bsrc=\"/web/)|\son\w+=|\sstyle=|https?://", one.text)


def test_the_worker_keeps_all_that_the_page_is_made_of(service: Caller) -> None:
    worker = service.get("/saw/worker.js")

    assert worker.headers["content-type"].startswith("text/javascript")
    found = re.search(r"const FILES = (\[.*?\]);", worker.text)
    assert found is not None
    kept = set(json.loads(found[1]))
    for file in kept:
        assert service.get(file).status_code == 200, file
    page = service.get("/saw/any").text
    asked = set(re.findall(r"(?:src|href)=\"(/web/[^\"]+)\"", page))
    for script in [file for file in kept if file.endswith(".js")]:
        text = (WEB / script.removeprefix("/web/")).read_text(encoding="utf-8")
        asked |= set(re.findall(r"from \"(/web/[^\"]+)\"", text))
    assert asked <= kept
