"""One plan of lengths and boards for two jobs that all documents are made of; planned once."""

from __future__ import annotations

import pytest

import optimiser as lib
from tests.documents.builders import Planned, a_request


@pytest.fixture(scope="session")
def planned() -> Planned:
    request = lib.request_from_document(a_request(), name="request")
    return Planned(request, lib.plan_cutting(request))
