"""The shell around the library: command line, service, demo; everything that touches the world."""
