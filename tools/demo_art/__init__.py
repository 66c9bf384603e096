"""The pictures of the lamplighter demo, one module a picture, drawn from shapes and small pixel maps."""
