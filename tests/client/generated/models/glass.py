from enum import StrEnum

class Glass(StrEnum):
    BOTH = "both"
    FRONT = "front"
    LEFT = "left"
    RIGHT = "right"

    def __str__(self) -> str:
        return str(self.value)
