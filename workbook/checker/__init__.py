"""The checker as a service: who asks, what was attempted, and the solver's verdict."""
