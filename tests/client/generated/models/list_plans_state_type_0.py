from enum import StrEnum

class ListPlansStateType0(StrEnum):
    CONFIRMED = "confirmed"
    DRAFT = "draft"
    DROPPED = "dropped"
    UNDONE = "undone"

    def __str__(self) -> str:
        return str(self.value)
