"""Our own demo jobs. Every name, place and size in them is invented."""
