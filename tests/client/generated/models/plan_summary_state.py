from enum import StrEnum

class PlanSummaryState(StrEnum):
    CONFIRMED = "confirmed"
    DRAFT = "draft"
    DROPPED = "dropped"
    PLANNING = "planning"
    UNDONE = "undone"

    def __str__(self) -> str:
        return str(self.value)
