"""What a target does to draw a tick: operations, calls, rows and pixels, in order."""
