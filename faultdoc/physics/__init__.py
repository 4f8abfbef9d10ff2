"""Pure functions of the plant's physics: SI floats in and out; nothing of FaultDoc's own is imported here."""
