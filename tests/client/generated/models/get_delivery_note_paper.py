from enum import StrEnum

class GetDeliveryNotePaper(StrEnum):
    A3 = "a3"
    A4 = "a4"

    def __str__(self) -> str:
        return str(self.value)
