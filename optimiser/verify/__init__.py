"""A stranger to the solvers: recomputes every plan from its request before anyone gets it."""
