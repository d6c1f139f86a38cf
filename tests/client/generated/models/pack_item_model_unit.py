from enum import StrEnum

class PackItemModelUnit(StrEnum):
    EACH = "each"
    G = "g"
    ML = "ml"
    MM = "mm"

    def __str__(self) -> str:
        return str(self.value)
