"""The neutral language, the words a target may have, and the routines written in it."""
