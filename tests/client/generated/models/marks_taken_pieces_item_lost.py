from enum import StrEnum

class MarksTakenPiecesItemLost(StrEnum):
    DAMAGED = "damaged"
    SHORT = "short"
    VALUE_0 = ""

    def __str__(self) -> str:
        return str(self.value)
