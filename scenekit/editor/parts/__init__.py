"""Parts of stations, each about one thing of the document."""
