"""A client that costs next to nothing: HTTP/1.1 over kept sockets, so that the service is measured.

A full client library takes longer over a call than the service does; 200 calls a second kept it so
busy that answers waited for it half a second, where the service had answered in milliseconds.
"""

from __future__ import annotations

import asyncio
import json
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlsplit

from benchmarks.service.served import Served


@dataclass(frozen=True, slots=True)
class Answer:
    """What is looked at of an answer."""

    status_code: int


class PlainClient:
    """Sends calls over sockets that are kept for the next one; use it with `async with`."""

    def __init__(self, served: Served) -> None:
        address = urlsplit(served.url)
        self._host, self._port = str(address.hostname), int(address.port or 80)
        self._headers = {"Host": f"{self._host}:{self._port}", **served.headers}
        self._kept: list[tuple[asyncio.StreamReader, asyncio.StreamWriter]] = []

    async def __aenter__(self) -> PlainClient:
        return self

    async def __aexit__(self, *_: object) -> None:
        for kept in self._kept:
            kept[1].close()

    async def request(self, method: str, path: str, json: dict[str, Any] | None = None) -> Answer:
        """Send one call and read its answer to the end."""
        if self._kept:
            try:
                reader, writer = self._kept.pop()
                return await self._send(reader, writer, method, path, json)
            except (asyncio.IncompleteReadError, ConnectionError):
                pass  # a kept socket that the service closed meanwhile
        reader, writer = await asyncio.open_connection(self._host, self._port)
        return await self._send(reader, writer, method, path, json)

    async def _send(
        self,
        reader: asyncio.StreamReader,
        writer: asyncio.StreamWriter,
        method: str,
        path: str,
        given: dict[str, Any] | None,
    ) -> Answer:
        body = b"" if given is None else json.dumps(given).encode()
        head = {**self._headers, "Content-Length": str(len(body))}
        if given is not None:
            head["Content-Type"] = "application/json"
        lines = [f"{method} {path} HTTP/1.1", *(f"{name}: {value}" for name, value in head.items())]
        writer.write("\r\n".join([*lines, "", ""]).encode() + body)
        answer = (await reader.readuntil(b"\r\n\r\n")).decode("latin-1").lower()
        status, _, headers = answer.partition("\r\n")
        for line in headers.split("\r\n"):
            if line.startswith("content-length:"):
                await reader.readexactly(int(line.partition(":")[2]))
        self._kept.append((reader, writer))
        return Answer(int(status.split()[1]))
