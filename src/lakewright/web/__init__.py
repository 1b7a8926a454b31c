"""The page: the job on a screen, drawn, judged and edited where it stands. A door, as the command line is."""
