"""Practice in the window: a simulated unit, its gauges, what is done at it, and what came of it."""
