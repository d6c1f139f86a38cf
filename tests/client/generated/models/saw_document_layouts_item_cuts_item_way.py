from enum import StrEnum

class SawDocumentLayoutsItemCutsItemWay(StrEnum):
    CROSS = "cross"
    CROSSCUT = "crosscut"
    RIP = "rip"

    def __str__(self) -> str:
        return str(self.value)
