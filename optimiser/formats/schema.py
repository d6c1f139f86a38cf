"""JSON Schemas of the documents, made from the models that read them."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel

from optimiser.formats.plan_documents import PlanDocument
from optimiser.formats.price_book import PriceBookModel
from optimiser.formats.rack import RackOffcutModel
from optimiser.formats.request import RequestDocument
from optimiser.formats.wall import WallModel


def schemas(*, ref_template: str = "#/$defs/{model}") -> dict[str, dict[str, Any]]:
    """Return the JSON Schema of each document by its name; `ref_template` as pydantic has it."""
    models: dict[str, type[BaseModel]] = {
        "cutting-plan": PlanDocument,
        "cutting-request": RequestDocument,
        "price-book": PriceBookModel,
        "rack-offcut": RackOffcutModel,
        "wall": WallModel,
    }
    return {
        name: model.model_json_schema(mode="validation", ref_template=ref_template)
        for name, model in models.items()
    }
