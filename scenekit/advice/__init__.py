"""The cheapest changes that let a scene fit its time and its memory, or a proof that there are none."""
