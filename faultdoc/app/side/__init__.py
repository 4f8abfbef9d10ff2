"""The panels beside the step: causes, record, why, plant."""
