"""The steps, oldest first; never edited once released."""
