from enum import StrEnum

class Cutting(StrEnum):
    KNIFE = "knife"
    SAW = "saw"

    def __str__(self) -> str:
        return str(self.value)
