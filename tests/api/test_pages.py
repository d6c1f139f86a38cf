"""Pages as they are sent, and the log-in: a key in a cookie is good for our own pages only."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from fastapi import FastAPI

from api.shell import PAGES, WEB, Page
from tests.api.bodies import Caller, a_request_body, a_service, the_problem
from tests.api.test_firms import a_key

OURS = {"Sec-Fetch-Site": "same-origin"}
SCRIPTS = sorted((WEB / "scripts").glob("*.js"))


@pytest.fixture(scope="module")
def public() -> FastAPI:
    return a_service(public=True, rate=1e6)


def logged_in(app: FastAPI, *roles: str) -> dict[str, str]:
    key = a_key(app, "ours", *roles)
    answer = Caller(app).ask("POST", "/log-in", json={"key": key}, headers=OURS)
    assert answer.status_code == 200, answer.text
    return {"Cookie": answer.headers["set-cookie"].partition(";")[0]}


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_a_page_runs_nothing_but_our_own_files(public: FastAPI, page: Page) -> None:
    (path, *_) = page.paths
    answer = Caller(public).get(re.sub(r"\{\w+\}", "x-1", path))

    assert answer.status_code == 200
    policy = answer.headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert not re.search(r"<script(?![^>]*\bsrc=\"/web/)|\son\w+=|\sstyle=|https?://", answer.text)
    for file in re.findall(r"(?:src|href)=\"(/web/[^\"]+)\"", answer.text):
        assert Caller(public).get(file).status_code == 200, file


@pytest.mark.parametrize("file", SCRIPTS, ids=lambda file: file.name)
def test_no_script_makes_markup_of_text(file: Path) -> None:
    text = file.read_text(encoding="utf-8")

    assert not re.search(r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(", text)
    assert not re.search(r"https?://(?!www\.w3\.org)", text)


def test_files_outside_the_pages_folder_are_not_served(public: FastAPI) -> None:
    for path in ("/web/../shell.py", "/web/%2e%2e/shell.py", "/web/..%2fapp.py"):
        assert Caller(public).get(path).status_code == 404, path


def test_a_key_is_kept_where_no_script_reads_it(public: FastAPI) -> None:
    key = a_key(public, "ours")

    answer = Caller(public).ask("POST", "/log-in", json={"key": key}, headers=OURS)

    cookie = answer.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie
    assert key not in answer.text


def test_a_wrong_key_logs_nobody_in(public: FastAPI) -> None:
    answer = Caller(public).ask("POST", "/log-in", json={"key": "sk_wrong"}, headers=OURS)

    the_problem(answer, status=401, kind="http-401")
    assert "set-cookie" not in answer.headers


def test_a_key_in_the_cookie_reads_and_changes_from_our_own_page(public: FastAPI) -> None:
    cookie = logged_in(public)
    caller = Caller(public)

    assert caller.ask("GET", "/v1/plans", headers=cookie).status_code == 200
    made = caller.ask("POST", "/v1/plans", json=a_request_body(), headers={**cookie, **OURS})
    assert made.status_code == 201
    same = {"Origin": "http://localhost", "Host": "localhost"}
    again = caller.ask("POST", "/v1/plans", json=a_request_body(), headers={**cookie, **same})
    assert again.status_code == 201


@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site", "Origin": "http://localhost"},
        {"Sec-Fetch-Site": "none"},
        {"Origin": "https://elsewhere.example"},
        {"Origin": "null"},
    ],
    ids=str,
)
def test_another_sites_page_changes_nothing_with_our_cookie(
    public: FastAPI, headers: dict[str, str]
) -> None:
    cookie = logged_in(public)

    answer = Caller(public).ask(
        "POST", "/v1/plans", json=a_request_body(), headers={**cookie, **headers}
    )

    the_problem(answer, status=403, kind="http-403")
    log_in = Caller(public).ask("POST", "/log-in", json={"key": "x"}, headers=headers)
    the_problem(log_in, status=403, kind="http-403")


def test_a_cookie_gives_no_more_than_its_key(public: FastAPI) -> None:
    cookie = logged_in(public, "read")

    answer = Caller(public).ask(
        "POST", "/v1/plans", json=a_request_body(), headers={**cookie, **OURS}
    )

    the_problem(answer, status=403, kind="http-403")
    who = Caller(public).ask("GET", "/caller", headers=cookie).json()
    assert who["roles"] == ["read"]
    assert who["public"] is True


def test_logging_out_forgets_the_key(public: FastAPI) -> None:
    answer = Caller(public).ask("POST", "/log-out", headers=OURS)

    assert answer.status_code == 200
    assert "max-age=0" in answer.headers["set-cookie"].lower()


def test_tries_of_keys_are_limited() -> None:
    caller = Caller(a_service(public=True, rate=1))
    answers = [
        caller.ask("POST", "/log-in", json={"key": "guess"}, headers=OURS).status_code
        for _ in range(4)
    ]

    assert answers == [401, 401, 429, 429]
