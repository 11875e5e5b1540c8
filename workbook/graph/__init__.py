"""The quantities of a lab, and how each follows from others."""
