"""Practice on simulated units: for people, and for the engine itself."""
