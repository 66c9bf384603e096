"""Dialects: spellings, limits and abilities as data, and the speller that uses them."""
