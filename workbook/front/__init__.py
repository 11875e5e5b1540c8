"""What a student sees: cards that hold widgets, and know no answer."""
