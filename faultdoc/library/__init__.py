"""Reads the fault trees, the resources and the case files; reports every mistake with file and line; lints."""
