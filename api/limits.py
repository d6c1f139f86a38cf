"""How much one call may ask for: bytes, seconds, parts. And headers that browsers heed.

No body over the limit gets in, whether it says its size or is sent in pieces.
"""

from __future__ import annotations

from urllib.parse import urlsplit

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from api.problems import problem_response
from optimiser import InvalidInput, Problem

# Common practice, no source: a week's work of a firm many times over, one worker's lunch hour.
MOST = {"seconds": 600.0, "materials": 200, "parts": 50_000, "walls": 50}
_HEADERS = (
    (b"x-content-type-options", b"nosniff"),
    (b"x-frame-options", b"DENY"),
    (b"referrer-policy", b"no-referrer"),
    (b"cache-control", b"no-store"),
)
# A drawing or an answer runs nothing, whatever name a part was given. /docs has scripts of its own.
_POLICY = (b"content-security-policy", b"default-src 'none'; style-src 'unsafe-inline'")


def require_within_limits(**asked: float) -> None:
    """Refuse work over the limits, naming each. Raises InvalidInput."""
    problems = tuple(
        Problem(name, f"{value:g} is more than {MOST[name]:g}", "Split it into several requests")
        for name, value in asked.items()
        if value > MOST[name]
    )
    if problems:
        raise InvalidInput(problems)


class _TooLarge(Exception):
    pass


class BodyLimit:
    """ASGI middleware that answers 413 to a body over `most` bytes."""

    def __init__(self, app: ASGIApp, most: int) -> None:
        self._app = app
        self._most = most

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, counting its body."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        declared = dict(scope["headers"]).get(b"content-length", b"0")
        if declared.isdigit() and int(declared) > self._most:
            await self._refuse(scope, receive, send)
            return
        seen = 0
        started = False

        async def counted() -> Message:
            nonlocal seen
            message = await receive()
            seen += len(message.get("body", b""))
            if seen > self._most:
                raise _TooLarge
            return message

        async def watched(message: Message) -> None:
            nonlocal started
            started = True
            await send(message)

        try:
            await self._app(scope, counted, watched)
        except _TooLarge:
            if not started:
                await self._refuse(scope, receive, send)

    async def _refuse(self, scope: Scope, receive: Receive, send: Send) -> None:
        answer = problem_response(
            413,
            "too-large",
            "The body is too large",
            detail=f"At most {self._most} bytes; split the request by material or by job.",
        )
        await answer(scope, receive, send)


class SecurityHeaders:
    """ASGI middleware that adds the headers that keep a browser from doing more than show."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, adding headers to its answer."""

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                given = {name.lower() for name, _ in message["headers"]}
                policy = () if scope["path"].startswith("/docs") else (_POLICY,)
                added = [pair for pair in (*_HEADERS, *policy) if pair[0] not in given]
                message = {**message, "headers": [*message["headers"], *added]}
            await send(message)

        await self._app(scope, receive, with_headers if scope["type"] == "http" else send)


class OwnPagesOnly:
    """ASGI middleware for a service without keys: no web page from elsewhere may call it.

    A page in the user's browser can reach this machine's own address, under a name of its own
    choice too; its browser then says so in Host or Origin.
    """

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, unless it comes from another site's page."""
        if scope["type"] == "http":
            headers = dict(scope["headers"])
            asked = [f"//{headers.get(b'host', b'').decode('latin-1')}"]
            asked += [headers[b"origin"].decode("latin-1")] if b"origin" in headers else []
            if not all(map(_is_own, asked)):
                answer = problem_response(
                    403,
                    "other-site",
                    "Only this machine's own pages may call a service without keys",
                    detail="Call it as localhost or 127.0.0.1, or serve it with --serve-public.",
                )
                await answer(scope, receive, send)
                return
        await self._app(scope, receive, send)


def _is_own(address: str) -> bool:
    try:
        return urlsplit(address).hostname in ("localhost", "127.0.0.1", "::1")
    except ValueError:
        return False
