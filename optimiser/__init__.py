"""Scantling: boarded timber walls to parts, one cutting plan, one order."""
