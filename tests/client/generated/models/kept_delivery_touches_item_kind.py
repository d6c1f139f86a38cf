from enum import StrEnum

class KeptDeliveryTouchesItemKind(StrEnum):
    DAMAGED = "damaged"
    SHORT = "short"

    def __str__(self) -> str:
        return str(self.value)
