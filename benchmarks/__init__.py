"""Measures: how good, how fast? Never: is it right?"""
