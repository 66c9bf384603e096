"""Planes as tiles and maps."""
