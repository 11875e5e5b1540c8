"""The messages that cross the border between a notebook and a checker; no logic."""
