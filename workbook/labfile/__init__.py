"""The text files that a person writes: a lab, a course, a roster."""
