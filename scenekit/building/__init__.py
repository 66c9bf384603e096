"""The stages of a build, and what they add to."""
