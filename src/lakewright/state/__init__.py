"""What happens: facts of one job (or many), the cases it is judged in, and a block a station."""
