"""Pictures of instruments, drawn where the true value is known."""
