"""What things are: frozen pydantic models with validation and no other behaviour."""
