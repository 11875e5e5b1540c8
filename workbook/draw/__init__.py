"""Values for each student."""
