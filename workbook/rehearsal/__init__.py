"""A simulated class that tries the real judge before any student does."""
