"""From evidence to belief over causes, and from belief and plant state to the next step."""
