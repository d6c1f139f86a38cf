from enum import StrEnum

class CorrectionKind(StrEnum):
    FOUND = "found"
    LOST = "lost"
    SCRAPPED = "scrapped"

    def __str__(self) -> str:
        return str(self.value)
