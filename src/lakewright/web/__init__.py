"""The page: the job on a screen, drawn, judged and edited where it stands. Only it and the command line read the clock."""
