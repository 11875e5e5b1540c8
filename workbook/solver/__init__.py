"""The hidden process that knows the answers."""
