"""Many jobs against many scenarios: on one core, on all, or on a cluster of Dask that is there already."""

from __future__ import annotations

import csv
import hashlib
import io
import math
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import Executor, Future, ProcessPoolExecutor, as_completed
from contextlib import AbstractContextManager, contextmanager, nullcontext, suppress
from dataclasses import dataclass
from pathlib import Path

from lakewright import __version__, units
from lakewright.api.read import assembled
from lakewright.book.outcomes import Record, recorded
from lakewright.checks.registry import CHECKS
from lakewright.documents.outcome_chart import outcome_chart
from lakewright.documents.outcome_tables import table_csv, table_parquet
from lakewright.documents.svg import svg
from lakewright.errors import AskError, LakewrightError
from lakewright.job.disk import put_in
from lakewright.job.read import BIGGEST, read_text
from lakewright.job.scenarios import A_SCENARIO_FILE, AS_IT_IS, Scenario, read_scenarios_text
from lakewright.job.write import set_values
from lakewright.search.sweep import Outcome, Swept, outcomes

AT_ONCE = 16
"""ours: jobs that go to a core together, a second or two of work: chunks, not crumbs."""

NOT_JUDGED = "not judged"

Progress = Callable[[int, int], None]


@dataclass(frozen=True)
class Site:
    """A job to be swept: its name in what is written, its text, and the file it stands in or would."""

    name: str
    text: str
    file: str
    trouble: str = ""


@dataclass(frozen=True)
class Sweep:
    """A sweep, done.

    jobs : in the order of their names; scenarios : their names, as it is first
    taken_over : of the jobs, so many were found in the record of an earlier run
    """

    jobs: tuple[Swept, ...]
    scenarios: tuple[str, ...]
    taken_over: int


def sites_in(place: Path, template: Path | None) -> tuple[Site, ...]:
    """The jobs of a folder and of the folders in it, or the rows of a table of sites.

    A table is a CSV file whose column `job` names each site; every other column is a path in a job file, and its
    cells are values to be set in the template. An empty cell changes nothing.

    Raises
    ------
    AskError where there is nothing to sweep, or a table has no template or no column `job`
    """
    if place.is_dir():
        files = sorted(file for file in place.rglob("*.toml") if "waters" not in file.relative_to(place).parts)
        if not files:
            raise AskError(f"{place} has no job file in it; name the folder they are in, or a table of sites")
        return tuple(_site(file, file.relative_to(place).as_posix()) for file in files)
    if place.suffix.lower() == ".csv":
        if template is None:
            raise AskError(f"{place} is a table of sites; say with --template the job file that its cells change")
        return tuple(_rows(place, template))
    raise AskError(f"{place} is neither a folder of job files nor a CSV table of sites")


def _site(file: Path, name: str) -> Site:
    try:
        return Site(name, read_text(file), str(file))
    except LakewrightError as error:
        return Site(name, "", str(file), str(error))


def _rows(table: Path, template: Path) -> Iterator[Site]:
    base = read_text(template)
    reader = csv.DictReader(io.StringIO(read_text(table, "a table of sites").removeprefix("\ufeff"), newline=None))
    try:
        rows, heads = list(reader), reader.fieldnames or ()
    except csv.Error as error:
        raise AskError(
            f"{table}:{reader.line_num + 1}: {error}; write a cell's few words between closed quotes"
        ) from None
    if "job" not in heads:
        raise AskError(f"{table}: no column is called job; give each site a name in one")
    for number, row in enumerate(rows, start=2):
        name = (row["job"] or "").strip() or f"row {number}"
        changes = {path: value for path, value in row.items() if path and path != "job" and value and value.strip()}
        extra = row.get(None)
        try:
            if extra:
                raise AskError(
                    f"{table}:{number}: more cells than columns; put a text with commas between double quotes"
                )
            yield Site(name, set_values(base, {"job.title": name, **changes}), str(template))
        except LakewrightError as error:
            yield Site(name, "", str(template), str(error))


def judged(site: Site, scenarios: Sequence[Scenario], key: str) -> Swept:
    """One job under every scenario. Whatever is wrong with it is told in its outcomes, and stops nothing."""
    if site.trouble:
        return Swept(
            site.name, "", key, tuple(Outcome(each.name, NOT_JUDGED, trouble=site.trouble) for each in scenarios)
        )
    title, plain = "", [each for each in scenarios if not each.change]
    found: dict[str, Outcome] = {}
    try:
        job, _, assembly = assembled(site.text, Path(site.file))
        title = job.job.title or ""
        found |= {each.scenario: each for each in outcomes(assembly.facts, plain)}
    except Exception as error:
        found |= {each.name: Outcome(each.name, NOT_JUDGED, trouble=_words(error)) for each in plain}
    for each in scenarios:
        if each.change:
            found[each.name] = _changed(site, each)
    return Swept(site.name, title, key, tuple(found[each.name] for each in scenarios))


def _changed(site: Site, scenario: Scenario) -> Outcome:
    """A job in a scenario that changes its file."""
    try:
        _, _, assembly = assembled(set_values(site.text, dict(scenario.change)), Path(site.file))
        return outcomes(assembly.facts, [scenario])[0]
    except Exception as error:
        return Outcome(scenario.name, NOT_JUDGED, trouble=_words(error))


def _words(error: Exception) -> str:
    """What is wrong, for one who reads a table; what we did not foresee is named by its kind too."""
    return str(error) if isinstance(error, LakewrightError) else f"{type(error).__name__}: {error}"


def judge_some(sites: Sequence[tuple[Site, str]], scenarios: Sequence[Scenario]) -> list[Swept]:
    """Some jobs, each with its key: what a core is given at a time."""
    return [judged(site, scenarios, key) for site, key in sites]


def sweep(
    place: Path,
    scenario_file: Path | None,
    record: Path,
    template: Path | None = None,
    cores: int = 1,
    cluster: str = "",
    progress: Progress | None = None,
) -> Sweep:
    """Judge every job of a folder or table under every scenario, going on where an earlier sweep was stopped.

    Parameters
    ----------
    scenario_file : of scenarios; without one every job is judged as it is
    record : where outcomes are kept as they come
    cores : processes of this machine; cluster : address of a Dask scheduler, used in their place
    progress : told jobs done and in all

    Raises
    ------
    JobError where the scenarios cannot be used, AskError for jobs, record or cluster
    """
    text = read_text(scenario_file, A_SCENARIO_FILE) if scenario_file is not None else ""
    scenarios = read_scenarios_text(text, str(scenario_file)) if scenario_file is not None else (Scenario(AS_IT_IS),)
    sites = sites_in(place, template)
    had = _recorded(record)
    keys = [key_of(site.name, site.text, site.trouble, _waters(site), text) for site in sites]
    left = [(site, key) for site, key in zip(sites, keys, strict=True) if key not in had]
    done, found = len(sites) - len(left), {key: had[key] for key in keys if key in had}
    with Record(record) as kept, _executor(cores, cluster) as pool:
        for some in _judged(left, scenarios, pool):
            kept.add(each.as_row() for each in some)
            found |= {each.key: each for each in some}
            done += len(some)
            if progress is not None:
                progress(done, len(sites))
    return Sweep(tuple(found[key] for key in keys), tuple(each.name for each in scenarios), len(sites) - len(left))


def _recorded(record: Path) -> dict[str, Swept]:
    """What a record has, by key."""
    found = {}
    for row in recorded(record):
        with suppress(ValueError, KeyError, TypeError):
            each = Swept.from_row(row)
            found[each.key] = each
    return found


def key_of(*texts: str) -> str:
    """A key of texts, and of this version of the program."""
    found = hashlib.sha256(__version__.encode())
    for text in texts:
        raw = text.encode("utf-8", "surrogatepass")
        found.update(b"%d:" % len(raw) + raw)
    return found.hexdigest()


def _waters(site: Site) -> str:
    """Texts of the waters a job may take its gaps from: where one changes, so may its outcomes."""
    folder = Path(site.file).parent / "waters"
    return "\0".join(f"{file.name}\0{_text(file)}" for file in sorted(folder.glob("*.toml"))) if folder.is_dir() else ""


def _text(file: Path) -> str:
    try:
        with file.open("rb") as stream:
            return stream.read(BIGGEST).decode("utf-8", "replace")
    except OSError:
        return ""


def _judged(
    left: Sequence[tuple[Site, str]], scenarios: Sequence[Scenario], pool: Executor | None
) -> Iterator[list[Swept]]:
    chunks = [left[at : at + AT_ONCE] for at in range(0, len(left), AT_ONCE)]
    if pool is None:
        yield from (judge_some(chunk, scenarios) for chunk in chunks)
        return
    asked: list[Future[list[Swept]]] = [pool.submit(judge_some, chunk, scenarios) for chunk in chunks]
    try:
        for each in as_completed(asked):
            yield each.result()
    finally:
        for each in asked:
            each.cancel()


def _executor(cores: int, cluster: str) -> AbstractContextManager[Executor | None]:
    if cluster:
        return _on_cluster(cluster)
    if cores == 1:
        return nullcontext(None)
    import multiprocessing

    # A process that is started anew holds no locks of the one it came from.
    return ProcessPoolExecutor(cores, mp_context=multiprocessing.get_context("spawn"))


@contextmanager
def _on_cluster(address: str) -> Iterator[Executor]:
    try:
        from distributed import Client
    except ImportError as error:
        raise AskError(
            f"a cluster needs {error.name}, which is not installed; install lakewright with its extra: "
            "pip install 'lakewright[cluster]'"
        ) from None
    try:
        client = Client(address, timeout="10s")  # type: ignore[no-untyped-call]
    except (OSError, ValueError) as error:
        raise AskError(f"no Dask scheduler answers at {address}: {error}; write such as tcp://127.0.0.1:8786") from None
    with client, client.get_executor() as pool:  # type: ignore[no-untyped-call]
        yield pool


COLUMNS = ("job", "title", "scenario", "status", "worst check", "margin", "fails", "unknown", "flow", "lift", "trouble")


def write_sweep(found: Sweep, folder: Path, system: str = "US", parquet: bool = True) -> tuple[Path, ...]:
    """Write what a sweep found into a folder: a CSV, a Parquet with every check's margin, and a chart.

    Raises
    ------
    AskError where the folder cannot be written, or what writes Parquet is not installed; nothing is written then
    """
    flow, lift = (f"{name} {units.unit_of(name, system)}" for name in ("flow", "lift"))
    heads = [{"flow": flow, "lift": lift}.get(name, name) for name in COLUMNS]
    rows = [(swept, outcome) for swept in found.jobs for outcome in swept.outcomes]
    written = {
        folder / "outcomes.csv": table_csv(heads, [_cells(*row, system) for row in rows]).encode("utf-8"),
        folder / "outcomes.svg": svg(outcome_chart(_headline(found), _counts(found))).encode("utf-8"),
    }
    if parquet:
        margins = {
            check.name: [outcome.margins[n] if outcome.margins else math.nan for _, outcome in rows]
            for n, check in enumerate(CHECKS)
        }
        columns: dict[str, Sequence[str] | Sequence[float]] = {
            "job": [swept.job for swept, _ in rows],
            "scenario": [outcome.scenario for _, outcome in rows],
            "status": [outcome.status for _, outcome in rows],
            "worst_check": [outcome.worst for _, outcome in rows],
            "margin": [outcome.margin for _, outcome in rows],
            "flow_m3_s": [outcome.flow for _, outcome in rows],
            "lift_m": [outcome.lift for _, outcome in rows],
            **margins,
        }
        written[folder / "margins.parquet"] = table_parquet(columns)
    put_in(folder, written)
    return tuple(written)


def _cells(swept: Swept, outcome: Outcome, system: str) -> tuple[str, ...]:
    margin = "" if math.isnan(outcome.margin) else f"{outcome.margin:.3f}"
    figures = (
        "" if math.isnan(value) else units.figure(value, kind, system, most=units.EVERY_DIGIT)
        for value, kind in ((outcome.flow, "flow"), (outcome.lift, "lift"))
    )
    names = ("; ".join(each) for each in (outcome.fails, outcome.unknown))
    who = (swept.job, swept.title, outcome.scenario, outcome.status, outcome.worst, margin)
    return (*who, *names, *figures, outcome.trouble.replace("\n", " | "))


def _headline(found: Sweep) -> str:
    return f"{len(found.jobs):,} jobs in {len(found.scenarios)} scenarios"


def _counts(found: Sweep) -> list[tuple[str, Mapping[str, int]]]:
    """How many jobs come out which way, scenario by scenario."""
    return [(name, Counter(swept.outcomes[n].status for swept in found.jobs)) for n, name in enumerate(found.scenarios)]
