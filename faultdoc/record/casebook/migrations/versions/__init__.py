"""One step of the layout each; a step that has been on people's machines is never changed."""
