"""Proof: the exported program is run and compared with the reference picture."""
