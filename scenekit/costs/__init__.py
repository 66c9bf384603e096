"""What a scene costs on a machine: time for each tick, and memory."""
