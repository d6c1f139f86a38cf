from enum import StrEnum

class MarksPiecesItemLost(StrEnum):
    DAMAGED = "damaged"
    SHORT = "short"
    VALUE_0 = ""

    def __str__(self) -> str:
        return str(self.value)
