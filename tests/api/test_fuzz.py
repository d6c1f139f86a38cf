"""Whatever the OpenAPI document allows, and what it does not, gets an answer that it describes.

Schemathesis makes the calls from the document. A few for each route by default; for a search,
`FUZZ=200 .venv/bin/pytest tests/api/test_fuzz.py` makes so many, and new ones each time.
"""

from __future__ import annotations

import os
from typing import Any

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
schema = schemathesis.openapi.from_asgi("/openapi.json", APP)
# Every boundary of every field of a wall takes minutes: in a search only.
schema.config.phases.coverage.enabled = "FUZZ" in os.environ


@schema.parametrize()
@settings(
    max_examples=EXAMPLES_EACH,
    derandomize="FUZZ" not in os.environ,
    deadline=None,
    database=None,
    suppress_health_check=list(HealthCheck),
)
def test_every_call_gets_an_answer_that_the_document_describes(
    case: schemathesis.Case[Any],
) -> None:
    case.call_and_validate(checks=CHECKS, headers={"Authorization": f"Bearer {KEY}"})
