"""Whatever the OpenAPI document allows, and what it does not, gets an answer that it describes.

Schemathesis makes the calls from the document. A few for each route by default; for a search,
`FUZZ=200 .venv/bin/pytest tests/api/test_fuzz.py` makes so many, and new ones each time.
"""

from __future__ import annotations

import os

import schemathesis
from hypothesis import HealthCheck, settings
from schemathesis.checks import not_a_server_error
from schemathesis.openapi.checks import UnsupportedMethodResponse  # noqa: F401 - names the module
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    negative_data_rejection,
    response_headers_conformance,
    response_schema_conformance,
    status_code_conformance,
)

from api.examples import EXAMPLES
from tests.api.bodies import Caller, a_service

EXAMPLES_EACH = int(os.environ.get("FUZZ", "0")) or 3
APP = a_service(workers=0)
CHECKS = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_headers_conformance,
    response_schema_conformance,
]
schema = schemathesis.openapi.from_asgi("/openapi.json", APP)


@schema.parametrize()
@settings(
    max_examples=EXAMPLES_EACH,
    derandomize="FUZZ" not in os.environ,
    deadline=None,
    database=None,
    suppress_health_check=list(HealthCheck),
)
def test_every_call_gets_an_answer_that_the_document_describes(case: schemathesis.Case) -> None:
    case.call_and_validate(checks=CHECKS)
