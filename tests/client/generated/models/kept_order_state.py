from enum import StrEnum

class KeptOrderState(StrEnum):
    DRAFT = "draft"
    PLACED = "placed"
    WITHDRAWN = "withdrawn"

    def __str__(self) -> str:
        return str(self.value)
