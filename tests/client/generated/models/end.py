from enum import StrEnum

class End(StrEnum):
    ABUTS = "abuts"
    FREE = "free"

    def __str__(self) -> str:
        return str(self.value)
