from enum import StrEnum

class LookAtWallViewType0Item(StrEnum):
    BOARDS = "boards"
    ELEVATION = "elevation"
    PICTORIAL = "pictorial"
    PLAN = "plan"
    SECTION = "section"

    def __str__(self) -> str:
        return str(self.value)
