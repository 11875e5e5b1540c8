"""Substances and reactions."""
