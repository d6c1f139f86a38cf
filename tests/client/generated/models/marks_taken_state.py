from enum import StrEnum

class MarksTakenState(StrEnum):
    CONFIRMED = "confirmed"
    DRAFT = "draft"
    DROPPED = "dropped"
    UNDONE = "undone"

    def __str__(self) -> str:
        return str(self.value)
