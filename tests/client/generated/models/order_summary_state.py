from enum import StrEnum

class OrderSummaryState(StrEnum):
    DRAFT = "draft"
    PLACED = "placed"
    WITHDRAWN = "withdrawn"

    def __str__(self) -> str:
        return str(self.value)
