from enum import StrEnum

class State(StrEnum):
    CUT = "cut"
    DAMAGED = "damaged"
    STARTED = "started"

    def __str__(self) -> str:
        return str(self.value)
