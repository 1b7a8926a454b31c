"""Which one: parts with their options, the distinct circuits they make, and the ranking of all that holds."""
