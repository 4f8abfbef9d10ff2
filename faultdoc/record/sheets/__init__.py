"""Many readings at once: typed in any order, pasted from a spreadsheet, or taken from a logger's file."""
