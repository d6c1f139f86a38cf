from enum import StrEnum

class Direction(StrEnum):
    CROSSCUT = "crosscut"
    RIP = "rip"

    def __str__(self) -> str:
        return str(self.value)
