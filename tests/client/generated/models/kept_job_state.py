from enum import StrEnum

class KeptJobState(StrEnum):
    NEW = "new"
    NO_PARTS = "no parts"
    ORDERED = "ordered"
    PART_RECEIVED = "part received"
    PLANNED = "planned"
    PLANNING = "planning"
    RECEIVED = "received"

    def __str__(self) -> str:
        return str(self.value)
