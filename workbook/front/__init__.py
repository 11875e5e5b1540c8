"""What a student sees."""
