"""The tables of the book, by version: each step takes a book one version on, and none takes anything out of it."""

from __future__ import annotations

APPLICATION = 0x4C616B65
"""ours: the four letters Lake, in the head of the file, by which a book is told from another program's file."""

DRAFTS = (
    """create table if not exists steps (
  number integer primary key,
  file text not null,
  after integer references steps (number),
  text text not null
) strict""",
    """create table if not exists drafts (
  file text primary key,
  base text not null,
  at integer not null references steps (number)
) strict""",
    "create index if not exists steps_after on steps (after)",
)
"""One row a step, and one a file: the text the draft was begun from, and the step it is at."""

APPEND_ONLY = (
    "papers", "revisions", "standings", "readings", "orders", "quotes", "visits", "invoices", "ways",
)  # fmt: skip
"""Tables whose rows are added, and never changed or taken out."""


def _stays(table: str) -> tuple[str, str]:
    words = f"a row of {table} is never changed or taken out"
    return (
        f"create trigger {table}_unchanged before update on {table} begin select raise(abort, '{words}'); end",
        f"create trigger {table}_kept before delete on {table} begin select raise(abort, '{words}'); end",
    )


PAPERS = (
    # What is kept as text: a job, a water, a customer, or a file that a job names. `folded` is how names are compared.
    """create table papers (
  number integer primary key,
  kind text not null check (kind in ('job', 'water', 'customer', 'file')),
  name text not null,
  folded text not null,
  unique (kind, folded)
) strict""",
    # Each revision is the whole text. `number` counts all of the book; `revision` those of one paper, from 1.
    """create table revisions (
  number integer primary key,
  paper integer not null references papers (number),
  revision integer not null check (revision >= 1),
  text text not null,
  note text not null,
  day text not null,
  author text not null,
  unique (paper, revision)
) strict""",
    """create trigger revisions_follow before insert on revisions
when new.revision <> 1 + (select coalesce(max(revision), 0) from revisions where paper = new.paper)
begin select raise(abort, 'a revision follows the last one'); end""",
    """create table standings (
  number integer primary key,
  job integer not null references papers (number),
  stage text not null,
  note text not null,
  day text not null,
  author text not null
) strict""",
    """create table readings (
  number integer primary key,
  job integer not null references papers (number),
  what text not null,
  said text not null,
  found text not null,
  note text not null,
  day text not null,
  author text not null
) strict""",
    """create table orders (
  number integer primary key,
  job integer not null references papers (number),
  what text not null check (what in ('ordered', 'came', 'sent back')),
  part text not null,
  count real not null check (count > 0.0),
  unit text not null,
  whom text not null,
  day text not null,
  author text not null
) strict""",
    # total is in cents; whole is 1 where nothing is missing in it; pick is what design chose, as JSON.
    """create table quotes (
  number integer primary key,
  job integer not null references papers (number),
  revision integer not null,
  total integer not null,
  whole integer not null check (whole in (0, 1)),
  pick text not null,
  prices text not null,
  day text not null,
  author text not null,
  foreign key (job, revision) references revisions (paper, revision)
) strict""",
    """create table visits (
  number integer primary key,
  job integer not null references papers (number),
  work text not null,
  minutes real not null check (minutes >= 0.0),
  people integer not null check (people >= 1),
  parts text not null,
  note text not null,
  day text not null,
  author text not null
) strict""",
    """create table invoices (
  number integer primary key,
  visit integer not null unique references visits (number),
  day text not null,
  author text not null
) strict""",
    # Minutes on the road between two places: waters, or the shop. The last row of two places counts, either way round.
    """create table ways (
  number integer primary key,
  start text not null,
  finish text not null,
  minutes real not null check (minutes >= 0.0),
  day text not null,
  author text not null
) strict""",
    *(
        f"create index {table}_{column} on {table} ({column})"
        for table, column in (
            ("standings", "job"), ("readings", "job"), ("orders", "job"), ("quotes", "job"), ("visits", "job"),
        )
    ),
    *(statement for table in APPEND_ONLY for statement in _stays(table)),
)  # fmt: skip

STEPS = (DRAFTS, PAPERS)
"""From no version to the first, from the first to the second. A step that has been released is never edited."""

VERSION = len(STEPS)
