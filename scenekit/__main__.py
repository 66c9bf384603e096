"""Lets `python -m scenekit` do what the command scenekit does."""

from scenekit.cli.main import run

run()
