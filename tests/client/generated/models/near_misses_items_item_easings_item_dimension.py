from enum import StrEnum

class NearMissesItemsItemEasingsItemDimension(StrEnum):
    HEIGHT = "height"
    LENGTH = "length"
    WIDTH = "width"

    def __str__(self) -> str:
        return str(self.value)
