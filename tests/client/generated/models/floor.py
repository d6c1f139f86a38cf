from enum import StrEnum

class Floor(StrEnum):
    SOLID = "solid"
    TIMBER = "timber"

    def __str__(self) -> str:
        return str(self.value)
