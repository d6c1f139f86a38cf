from enum import StrEnum

class CutOutWorkDocumentShape(StrEnum):
    CORNER_NOTCH = "corner notch"
    U_NOTCH = "U-notch"
    WINDOW = "window"

    def __str__(self) -> str:
        return str(self.value)
