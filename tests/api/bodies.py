"""Bodies for the service: the examples of its own document, thinking briefly, and changes."""

from __future__ import annotations

import asyncio
import copy
import tempfile
from collections.abc import AsyncIterator
from typing import Any

import httpx
from fastapi import FastAPI

from api.app import create_app
from api.examples import BATCH_EXAMPLE, REQUEST_EXAMPLE
from api.settings import Settings


def a_service(**changes: Any) -> FastAPI:
    """Make a service on a store of its own; it lasts as long as the service's store does."""
    folder = tempfile.TemporaryDirectory(prefix="store", ignore_cleanup_errors=True)
    app = create_app(Settings(**{"store": f"sqlite:///{folder.name}/store.db", **changes}))
    app.state.folder = folder
    return app


class Caller:
    """Calls a service in this process; the answers are those that a client on a wire would get."""

    def __init__(self, app: FastAPI, key: str | None = None) -> None:
        self.app = app
        self._key = {} if key is None else {"Authorization": f"Bearer {key}"}

    def ask(
        self,
        method: str,
        path: str,
        *,
        json: object = None,
        content: str | bytes | AsyncIterator[bytes] | None = None,
        headers: dict[str, str] | None = None,
    ) -> httpx.Response:
        return asyncio.run(self._ask(method, path, json, content, headers or {}))

    def get(self, path: str, **headers: str) -> httpx.Response:
        return self.ask("GET", path, headers=_named(headers))

    def post(self, path: str, json: object = None, **headers: str) -> httpx.Response:
        return self.ask("POST", path, json=json, headers=_named(headers))

    def put(self, path: str, json: object, **headers: str) -> httpx.Response:
        return self.ask("PUT", path, json=json, headers=_named(headers))

    async def _ask(
        self,
        method: str,
        path: str,
        json: object,
        content: str | bytes | AsyncIterator[bytes] | None,
        headers: dict[str, str],
    ) -> httpx.Response:
        # What a server answers counts, not what is raised in it.
        transport = httpx.ASGITransport(app=self.app, raise_app_exceptions=False)
        async with httpx.AsyncClient(
            transport=transport, base_url="http://localhost", headers={**self._key, **headers}
        ) as client:
            if content is not None:
                return await client.request(method, path, content=content)
            return await client.request(method, path, json=json)


def _named(headers: dict[str, str]) -> dict[str, str]:
    """Write if_match as If-Match."""
    return {name.replace("_", "-"): value for name, value in headers.items()}


def without_offcuts(request: dict[str, Any]) -> dict[str, Any]:
    """Take the offcuts out of a request that is to be planned with the firm's rack."""
    for material in (*request["lengths"], *request["sheets"]):
        material.pop("offcuts", None)
    return request


def a_request_body(**changes: object) -> dict[str, Any]:
    return {**copy.deepcopy(REQUEST_EXAMPLE), "seconds": 0.1, **changes}


def a_batch_body(**changes: object) -> dict[str, Any]:
    return {**copy.deepcopy(BATCH_EXAMPLE), "seconds": 0.2, **changes}


def the_problem(answer: httpx.Response, *, status: int, kind: str) -> dict[str, Any]:
    """Check that an answer is problem details (RFC 9457) and return them."""
    assert answer.status_code == status, answer.text
    assert answer.headers["content-type"] == "application/problem+json"
    document = answer.json()
    assert isinstance(document, dict)
    assert document["type"] == f"/problems/{kind}"
    assert document["status"] == status
    assert document["title"]
    for problem in document.get("problems", ()):
        assert set(problem) == {"field", "trouble", "remedy"}
        assert all(problem.values())
    assert "Traceback" not in answer.text
    return document
