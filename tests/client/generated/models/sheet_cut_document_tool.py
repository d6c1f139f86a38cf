from enum import StrEnum

class SheetCutDocumentTool(StrEnum):
    SAW = "saw"
    SNAP = "snap"
    VALUE_0 = ""

    def __str__(self) -> str:
        return str(self.value)
