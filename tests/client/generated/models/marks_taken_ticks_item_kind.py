from enum import StrEnum

class MarksTakenTicksItemKind(StrEnum):
    CUT = "cut"
    DAMAGED = "damaged"
    DONE = "done"
    FLOOR = "floor"
    SHORT = "short"
    SPOILED = "spoiled"
    UNDO = "undo"

    def __str__(self) -> str:
        return str(self.value)
