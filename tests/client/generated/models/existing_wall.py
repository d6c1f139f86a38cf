from enum import StrEnum

class ExistingWall(StrEnum):
    SOLID = "solid"
    STUDS = "studs"

    def __str__(self) -> str:
        return str(self.value)
