"""The routes: each reads its input, asks the store or the library, and answers; no logic."""
