from enum import StrEnum

class SparesBodyHandling(StrEnum):
    CAREFUL = "careful"
    ROUGH = "rough"
    USUAL = "usual"

    def __str__(self) -> str:
        return str(self.value)
