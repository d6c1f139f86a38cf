"""A price book from its file: kept as it stands, every fault with its line."""

from __future__ import annotations

import pytest

from api.demo_run import SCENARIO
from tests.api.bodies import Caller, a_service, the_problem

TEXT = (SCENARIO / "price-book.toml").read_text(encoding="utf-8")


@pytest.fixture
def service() -> Caller:
    return Caller(a_service())


def test_a_file_is_kept_as_a_version_and_planned_with(service: Caller) -> None:
    first = service.put("/v1/price-books/usual/file", {"text": TEXT, "valid_from": "2026-01-01"})
    second = service.put("/v1/price-books/usual/file", {"text": TEXT}, if_match='"1"')

    assert (first.status_code, second.status_code) == (201, 201), second.text
    assert (first.json()["version"], second.json()["version"]) == (1, 2)
    assert first.json()["merchant"]
    kept = service.get("/v1/price-books/usual?on=2026-02-01").json()
    assert kept["version"] == 1
    assert len(kept["prices"]["lengths"]) == first.json()["lengths"] > 0
    stale = service.put("/v1/price-books/usual/file", {"text": TEXT}, if_match='"1"')
    the_problem(stale, status=412, kind="stale")


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("[[lengths]]", "[[lengths", "is not TOML"),
        ('price = "3.58"', 'price = "much"', "much"),
        ('currency = "GBP"', 'currency = "GBP"\ncolour = "blue"', "colour"),
    ],
)
def test_a_fault_names_its_line_and_nothing_is_kept(
    service: Caller, old: str, new: str, said: str
) -> None:
    assert old in TEXT
    broken = TEXT.replace(old, new, 1)
    line = broken[: broken.index(new) + len(new)].count("\n") + 1

    answer = service.put("/v1/price-books/usual/file", {"text": broken, "file": "mine.toml"})

    problems = the_problem(answer, status=422, kind="invalid-input")["problems"]
    told = " / ".join(f"{one['field']} {one['trouble']}" for one in problems)
    assert said in told
    assert f"line {line}" in told
    assert service.get("/v1/price-books").json()["items"] == []
