"""Where things are at a tick: exact, on integers, without drift."""
