"""From marks to tables."""
