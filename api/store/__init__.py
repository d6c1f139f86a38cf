"""What must outlive the process: jobs, prices, plans, the rack's ledger, runs, firms and keys.

Knows databases, and nothing of HTTP. Every function that reads or writes a firm's things takes the
firm, so that no query can forget it.
"""
