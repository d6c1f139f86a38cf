"""Tests of cutting lengths."""
