"""One module for each command, imported only when it is called."""
