from enum import StrEnum

class LedgerLineKind(StrEnum):
    ADJUSTED = "adjusted"
    RACKED = "racked"
    RELEASED = "released"
    RESERVED = "reserved"
    SCRAPPED = "scrapped"
    USED = "used"

    def __str__(self) -> str:
        return str(self.value)
