"""The window: the whole job in sight, from sheets to a proof."""
