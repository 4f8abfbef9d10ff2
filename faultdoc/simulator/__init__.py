"""A whole unit with faults of any severity, and the readings it gives at every measuring point."""
