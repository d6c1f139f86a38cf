"""The planner: from one request to one checked plan."""
