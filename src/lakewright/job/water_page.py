"""The reference page of a water's file.

python -m lakewright.job.water_page docs/reference/water_file.md     writes the page
"""

from __future__ import annotations

import sys
from pathlib import Path

from lakewright.job.fields import header, walk
from lakewright.job.schema import table_reference
from lakewright.job.water import Water

_HEAD = """# The file of a water

Written by `python -m lakewright.job.water_page`; change the model, not this page.

A shop works a dozen waters, and what is known of each is kept once, in a file of its own in the folder `waters`
beside the jobs. A job refers to one by its name or by the name of its file: `[site] water = "long arm lake"`.
What the job does not say is then taken from the record before any default; a build takes only what was measured
or looked up.

The file is TOML. Each fact is a plain value, or a table that says who said so and when:

```toml
elevation = "1340 ft"
low = { value = "-2.5 ft", told = 2026-05-03, said_by = "the neighbour" }  # or measured, looked_up, assumed; a note
low_months = { value = ["August", "September"], told = 2026-05-03, said_by = "the neighbour" }
```

Heights are from the usual summer level of the water, which is 0: plus is up, minus is down. Every field may be left
out, except those marked *needed*. Double brackets are written once for each row.
"""


def water_reference() -> str:
    """The reference page of a water's file, in Markdown."""
    inner = [table_reference(f"`{header(path, form)}`", table) for path, table, form in walk(Water)]
    return "".join([_HEAD, table_reference("Above the first table", Water), *inner])


def main(arguments: list[str]) -> None:
    """Write the reference page."""
    for name in arguments:
        Path(name).write_text(water_reference(), encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
