"""The checker: it lets no wrong plan and no false bound through."""
