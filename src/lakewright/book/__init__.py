"""What is kept from one day to the next, on this machine: SQLite files of our own. Not for a network drive."""
