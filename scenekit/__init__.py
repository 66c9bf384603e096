"""scenekit: from art to a proven parallax scene in somebody's BASIC."""

__version__ = "0.1.0"
