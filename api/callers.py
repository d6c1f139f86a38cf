"""Who calls: the one firm of this machine, or whoever shows a key; and what they may do."""

from __future__ import annotations

import time
from collections.abc import Awaitable, Callable
from dataclasses import dataclass, field
from threading import Lock
from typing import Annotated
from urllib.parse import urlsplit

from fastapi import Depends, Request
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException

from api.settings import Settings
from api.store.engine import Store
from api.store.keys import ROLES, Key, key_of, local_firm

BURST_SECONDS = 2.0  # a caller may save up as many calls as it could make in this time
_MOST_BUCKETS = 20_000
# Where a browser keeps the key that was entered on the log-in page.
COOKIE = "scantling-key"
_READING = frozenset({"GET", "HEAD", "OPTIONS"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Caller:
    """The firm a call is for, who makes it, and their roles."""

    firm: str
    who: str
    roles: frozenset[str]


@dataclass(slots=True)
class Buckets:
    """Counts the calls of each key: so many a second for long, a burst of twice that at once."""

    rate: float
    _full: dict[str, tuple[float, float]] = field(default_factory=dict)
    _lock: Lock = field(default_factory=Lock)

    def wait(self, key: str, at: float) -> float:
        """Take one call; return 0, or for how many seconds the caller must wait."""
        most = max(1.0, self.rate * BURST_SECONDS)
        with self._lock:
            if len(self._full) > _MOST_BUCKETS:
                self._full.clear()
            left, then = self._full.get(key, (most, at))
            left = min(most, left + self.rate * max(0.0, at - then))
            if left < 1:
                self._full[key] = (left, at)
                return (1 - left) / self.rate
            self._full[key] = (left - 1, at)
            return 0.0


# The framework gives each plain dependency a thread of its own; these need none, so they are async.
async def store_of(request: Request) -> Store:
    """Return the service's store."""
    store = request.app.state.store
    assert isinstance(store, Store)
    return store


TheStore = Annotated[Store, Depends(store_of)]


async def _caller_of(request: Request) -> Caller:
    settings: Settings = request.app.state.settings
    if not settings.public:
        return Caller(firm=request.app.state.local_firm, who="local", roles=frozenset(ROLES))
    scheme, _, key = request.headers.get("authorization", "").partition(" ")
    if scheme.lower() != "bearer":
        key = request.cookies.get(COOKIE, "")
        # A browser sends its cookie with whatever a page of any site makes it send.
        if key and request.method not in _READING and not is_own_page(request):
            raise HTTPException(403, "A key in a cookie changes things from our own pages only")
    store: Store = request.app.state.store
    found = await run_in_threadpool(key_in, store, key.strip()) if key.strip() else None
    if found is None:
        raise HTTPException(
            401,
            "A key is needed: send Authorization: Bearer KEY, with a key that is not revoked",
            headers={"WWW-Authenticate": "Bearer"},
        )
    slow_down(request, found.id, time.monotonic())
    return Caller(firm=found.firm, who=f"{found.name} ({found.id})", roles=found.roles)


def slow_down(request: Request, who: str, at: float) -> None:
    """Count one call of a key's or an address's; answer 429 when there are too many."""
    buckets: Buckets = request.app.state.buckets
    seconds = buckets.wait(who, at)
    if seconds:
        raise HTTPException(
            429,
            f"Too many calls: at most {buckets.rate:g} a second for long",
            headers={"Retry-After": str(int(seconds) + 1)},
        )


def is_own_page(request: Request) -> bool:
    """Return whether a browser says that a call comes from a page of this very service.

    Sec-Fetch-Site where the browser sends it (Fetch Metadata, W3C), else Origin against Host; a
    call that says neither is not from a page.
    """
    site = request.headers.get("sec-fetch-site")
    if site is not None:
        return site == "same-origin"
    origin = urlsplit(request.headers.get("origin", ""))
    return bool(origin.netloc) and origin.netloc == request.headers.get("host")


def key_in(store: Store, key: str) -> Key | None:
    """Return who a key belongs to; None when it is unknown or revoked."""
    with store.read() as connection:
        return key_of(connection, key)


def _needs(role: str) -> Callable[[Request], Awaitable[Caller]]:
    # One dependency and not a chain of them: the framework takes each apart again for each route.
    async def require(request: Request) -> Caller:
        caller = await _caller_of(request)
        if role not in caller.roles:
            raise HTTPException(403, f"This needs a key with the role {role!r}")
        return caller

    return require


Reader = Annotated[Caller, Depends(_needs("read"))]
Planner = Annotated[Caller, Depends(_needs("plan"))]
Buyer = Annotated[Caller, Depends(_needs("order"))]
Admin = Annotated[Caller, Depends(_needs("admin"))]


def open_local_firm(store: Store) -> str:
    """Return the one firm of a service that asks for no keys."""
    with store.write() as connection:
        return local_firm(connection)
