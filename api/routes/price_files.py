"""A price book as its file: read as written, every fault with its line, and kept as a version."""

from __future__ import annotations

import tomllib
from datetime import UTC, date, datetime
from typing import Annotated

from fastapi.responses import JSONResponse, Response
from pydantic import BaseModel, ConfigDict, Field

import optimiser as lib
from api.answers import IfMatch, etag, version_from
from api.callers import Buyer, TheStore
from api.openapi import Routes
from api.store import papers
from optimiser import InvalidInput

router = Routes(prefix="/v1", tags=["jobs and prices"])
_EXAMPLE = """merchant = "Demo Merchant"
currency = "GBP"
vat_percent = 20

[[lengths]]
material = "c16-38x63"
description = "Studwork timber 38 × 63, C16"
thickness_mm = 38
width_mm = 63
grade = "C16"
mass_kg_per_m = 1.1
stock = [{ id = "c16-38x63-2400", length_mm = 2400, price = "3.58" }]
"""


class PriceFileBody(BaseModel):
    """A price book's text as it stands in its file (TOML), and the day from which it holds."""

    model_config = ConfigDict(
        extra="forbid",
        json_schema_extra={"examples": [{"text": _EXAMPLE, "file": "prices.toml"}]},
    )

    text: Annotated[str, Field(min_length=1)]
    file: Annotated[str, Field(min_length=1, max_length=200)] = "prices.toml"
    valid_from: date | None = None


@router.put("/price-books/{name}/file", status_code=201)
def add_price_file(
    name: str, body: PriceFileBody, store: TheStore, caller: Buyer, if_match: IfMatch = None
) -> Response:
    """Add a version of a price book from its file; every fault names its line and quotes it."""
    known = version_from(if_match)
    papers.require_book_name(name)
    try:
        book = lib.read_price_book(body.text, name=body.file)
    except InvalidInput as fault:
        raise InvalidInput(tuple(lib.quote_lines(fault.problems, body.text))) from None
    first = (body.valid_from or datetime.now(UTC).date()).isoformat()
    document = tomllib.loads(body.text)
    with store.write() as connection:
        version = papers.add_price_book(connection, caller.firm, name, first, document, known=known)
        papers.note(connection, caller.firm, caller.who, "add prices", f"{name} {version}"[-200:])
    answer = {
        "name": name,
        "version": version,
        "valid_from": first,
        "merchant": book.merchant,
        "lengths": len(book.lengths),
        "sheets": len(book.sheets),
        "packs": len(book.packs),
    }
    return JSONResponse(answer, status_code=201, headers=etag(version))
