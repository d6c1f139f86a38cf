from enum import StrEnum

class OrderSummaryState(StrEnum):
    DRAFT = "draft"
    PART_RECEIVED = "part received"
    PLACED = "placed"
    RECEIVED = "received"
    WITHDRAWN = "withdrawn"

    def __str__(self) -> str:
        return str(self.value)
