"""One page a file: what fills the window, or its left side."""
