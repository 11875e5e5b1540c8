"""How a relation looks after a known mistake: one module a family of mistakes."""
