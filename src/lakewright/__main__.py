"""`python -m lakewright`."""

from lakewright.cli import main

raise SystemExit(main())
