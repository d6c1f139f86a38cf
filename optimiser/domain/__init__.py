"""Values only: what is bought, cut, planned, ordered and built. Frozen, complete, no behaviour."""
