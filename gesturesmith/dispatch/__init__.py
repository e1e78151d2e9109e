"""Deliveries: the file that says what is delivered, the record of what was, and the differences."""
