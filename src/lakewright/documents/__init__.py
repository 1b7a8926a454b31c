"""Paper: the site drawn to scale, and the sheets made of it."""
