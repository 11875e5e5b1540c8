"""How a notebook reaches a checker, and what it keeps in the student's folder."""
