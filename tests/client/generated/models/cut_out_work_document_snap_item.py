from enum import StrEnum

class CutOutWorkDocumentSnapItem(StrEnum):
    BOTTOM = "bottom"
    LEFT = "left"
    RIGHT = "right"
    TOP = "top"

    def __str__(self) -> str:
        return str(self.value)
