"""Whatever the OpenAPI document allows, and what it does not, gets an answer that it describes.

Schemathesis makes the calls from the document. A few for each route by default; for a search,
`FUZZ=20 .venv/bin/pytest tests/api/test_fuzz.py -s` makes so many new ones for each route, after
those at the boundaries of its fields. Of these a batch has some 4,000: after the first hundred of a
route one in seven is made, others each time, and a route ends after `FUZZ_SECONDS` (60). What was
called and what was left out stands at the end.
"""

from __future__ import annotations

import os
import random
import sys
import time
from collections import Counter
from collections.abc import Iterator
from typing import Any

import pytest
import schemathesis
from hypothesis import HealthCheck, settings
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    allow_header_conformance,
    content_type_conformance,
    response_headers_conformance,
    response_schema_conformance,
    status_code_conformance,
    unsupported_method,
)

from api.store.keys import ROLES, make_key
from tests.api.bodies import a_service

IS_SEARCH = "FUZZ" in os.environ
EXAMPLES_EACH = int(os.environ.get("FUZZ", "0")) or 1
APP = a_service(public=True, workers=0, rate=1e6)
with APP.state.store.write() as _connection:
    KEY = make_key(_connection, firm="Firm", name="fuzz", roles=ROLES)
CHECKS = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_headers_conformance,
    response_schema_conformance,
    unsupported_method,
    allow_header_conformance,
]
ROUTE_SECONDS = float(os.environ.get("FUZZ_SECONDS", "60"))
ALL_BOUNDARIES = 100  # of a route; of those beyond, one in
ONE_IN = 7
schema = schemathesis.openapi.from_asgi("/openapi.json", APP)
# Every boundary of every field of a wall takes minutes: in a search only.
schema.config.phases.coverage.enabled = IS_SEARCH


class Budget:
    """How much of its time each route has had; half of it is for boundaries."""

    def __init__(self) -> None:
        self._luck = random.Random()
        self._began: dict[str, float] = {}
        self.calls: dict[str, Counter[str]] = {}

    def allows(self, route: str, phase: str) -> bool:
        """Count a call, and return whether it is to be made."""
        spent = time.monotonic() - self._began.setdefault(route, time.monotonic())
        counts = self.calls.setdefault(route, Counter())
        is_boundary = phase == "coverage"
        left_out = spent > (ROUTE_SECONDS / 2 if is_boundary else ROUTE_SECONDS)
        if is_boundary and counts[phase] >= ALL_BOUNDARIES:
            left_out = left_out or self._luck.randrange(ONE_IN) > 0
        counts["left out" if left_out else phase] += 1
        return not left_out

    def told(self) -> str:
        """Return what was called, by route."""
        return "\n".join(
            f"{route}: {', '.join(f'{count} {phase}' for phase, count in counts.items())}"
            for route, counts in self.calls.items()
        )


BUDGET = Budget()


@pytest.fixture(scope="module", autouse=IS_SEARCH)
def _tell() -> Iterator[None]:
    yield
    sys.stderr.write(f"\n{BUDGET.told()}\n")


@schema.parametrize()
@settings(
    max_examples=EXAMPLES_EACH,
    derandomize=not IS_SEARCH,
    deadline=None,
    database=None,
    suppress_health_check=list(HealthCheck),
)
def test_every_call_gets_an_answer_that_the_document_describes(
    case: schemathesis.Case[Any],
) -> None:
    phase = "" if case.meta is None else case.meta.phase.name.value
    if IS_SEARCH and not BUDGET.allows(case.operation.label, phase):
        return
    case.call_and_validate(checks=CHECKS, headers={"Authorization": f"Bearer {KEY}"})
