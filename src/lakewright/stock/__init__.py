"""What can be had: tables of pipes, valves, screens, pumps, jets, tanks, small parts and fittings, read by `load`.

Where the numbers come from is said at the head of each table.
Pumps, jets, tanks, screens and all prices are invented.
"""
