"""Measures a machine: a benchmark program in its BASIC, and costs fitted to what the program says."""
