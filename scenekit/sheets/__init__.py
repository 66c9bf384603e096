"""Sheets of a project: how pictures become frames and animations, and follow their artist's new versions."""
