"""A case on its way from one person to the next: one file, or a few QR codes, and putting copies together."""
