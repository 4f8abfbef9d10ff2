"""What was done and said: moves on a case, the session with its undo, the case book and the report."""
