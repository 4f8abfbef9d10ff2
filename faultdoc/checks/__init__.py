"""What a reading should have been: data sheet and readings in, expected against measured out."""
