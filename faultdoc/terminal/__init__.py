"""The same layers without a window: the wizard as text, the demo, and what the command line prints."""
