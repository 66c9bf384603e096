"""Puts neutral programs together from routines, a bundle and a scheme."""
