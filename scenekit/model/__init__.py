"""The document: frozen records of a project, its scenes and targets, and how they are read and saved."""
