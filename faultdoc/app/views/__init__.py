"""One view for each kind of step: what is to be done, and where the answer goes."""
