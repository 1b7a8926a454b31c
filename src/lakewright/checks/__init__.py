"""Is it good? One short function a check, one file a station, one tuple in the order water flows."""
