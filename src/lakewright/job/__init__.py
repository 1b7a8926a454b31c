"""What is asked: the job file's models, and the door that reads, checks and writes it."""
