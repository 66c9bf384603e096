"""The reference picture of any tick, drawn from whole pictures."""
