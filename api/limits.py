"""No body over the limit gets in, whether it says its size or is sent in pieces."""

from __future__ import annotations

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from api.problems import problem_response

MOST_BYTES = 5_000_000


class _TooLarge(Exception):
    pass


class BodyLimit:
    """ASGI middleware that answers 413 to a body over `most` bytes."""

    def __init__(self, app: ASGIApp, most: int = MOST_BYTES) -> None:
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
