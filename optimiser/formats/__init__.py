"""Text from outside to values and back: the modules made for input and output, no disk here."""
