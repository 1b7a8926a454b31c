"""What water does: pure functions of arrays in SI, one file a subject. Imports numpy and nothing else."""
