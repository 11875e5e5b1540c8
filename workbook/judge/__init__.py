"""The verdict on an answer."""
