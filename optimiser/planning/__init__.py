"""Where wood meets integers: jobs to requests, outcomes to plans, plans to orders."""
