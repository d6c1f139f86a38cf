from enum import StrEnum

class SawDocumentLayoutsItemKind(StrEnum):
    LENGTH = "length"
    SHEET = "sheet"

    def __str__(self) -> str:
        return str(self.value)
