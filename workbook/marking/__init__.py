"""From hand-ins to marks."""
