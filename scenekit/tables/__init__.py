"""The integer tables and image files that an export carries."""
