"""JSON Schemas of the documents, made from the models that read them."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema
from pydantic_core.core_schema import WithDefaultSchema

from optimiser.formats.label_sheet import LabelSheetModel
from optimiser.formats.marks import MarksModel
from optimiser.formats.plan_documents import PlanDocument
from optimiser.formats.price_book import PriceBookModel
from optimiser.formats.rack import RackOffcutModel
from optimiser.formats.request_documents import RequestDocument
from optimiser.formats.terms import TermsModel
from optimiser.formats.wall_document import WallModel


class _AsWritten(GenerateJsonSchema):
    """Shows a default as a person writes it: millimetres and decimals, not what they are inside."""

    def get_default_value(self, schema: WithDefaultSchema) -> Any:
        default = super().get_default_value(schema)
        write = schema["schema"].get("serialization", {}).get("function")
        return default if write is None or "default" not in schema else write(default)


def schemas(*, ref_template: str = "#/$defs/{model}") -> dict[str, dict[str, Any]]:
    """Return the JSON Schema of each document by its name; `ref_template` as pydantic has it."""
    models: dict[str, type[BaseModel]] = {
        "cutting-marks": MarksModel,
        "cutting-plan": PlanDocument,
        "cutting-request": RequestDocument,
        "delivery-terms": TermsModel,
        "label-sheet": LabelSheetModel,
        "price-book": PriceBookModel,
        "rack-offcut": RackOffcutModel,
        "wall": WallModel,
    }
    return {
        name: model.model_json_schema(
            mode="validation", ref_template=ref_template, schema_generator=_AsWritten
        )
        for name, model in models.items()
    }
