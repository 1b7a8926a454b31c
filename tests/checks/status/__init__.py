"""The rows of the table of checks and statuses, a file a station."""
