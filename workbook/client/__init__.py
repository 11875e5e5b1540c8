"""How a notebook reaches a checker, and how it keeps what was typed."""
