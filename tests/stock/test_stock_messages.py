"""The exact words for a name that is not there and for a cell that will not do."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from lakewright.errors import StockError
from lakewright.stock.load import (
    by_name,
    fittings_in,
    foot_valves_in,
    jets_in,
    load_stock,
    pipes_in,
    pumps_in,
    screens_in,
    tanks_in,
)

pytestmark = pytest.mark.message

STOCK = load_stock()


@pytest.mark.parametrize(
    "ask, name, words",
    [
        (
            STOCK.pipe,
            "polyethelene, SIDR 9, 1-1/2 in",
            "found 'polyethelene, SIDR 9, 1-1/2 in'; wanted the name of a pipe in stock; did you mean "
            "'polyethylene, SIDR 9, 1-1/2 in' or 'polyethylene, SIDR 9, 2-1/2 in' or "
            "'polyethylene, SIDR 9, 1-1/4 in'?",
        ),
        (
            STOCK.foot_valve,
            "FOOT VALVE, SPRING, 4 IN",
            "found 'FOOT VALVE, SPRING, 4 IN'; wanted the name of a foot valve in stock; did you mean "
            "'foot valve, spring, 3/4 in' or 'foot valve, spring, 3 in' or 'foot valve, spring, 2 in'?",
        ),
        (
            STOCK.screen,
            "zzz",
            "found 'zzz'; wanted the name of a screen in stock; write one of the 10 names in stock, such as "
            "'cylinder screen, 3 x 8 in'",
        ),
        (
            STOCK.pump,
            "jet, shalow, 3/4 hp",
            "found 'jet, shalow, 3/4 hp'; wanted the name of a pump in stock; did you mean "
            "'jet, shallow, 3/4 hp' or 'jet, shallow, 1/2 hp' or 'jet, shallow, 1 hp'?",
        ),
        (
            STOCK.jet,
            "q",
            "found 'q'; wanted the name of a jet pump in stock; write one of the 6 names in stock, such as "
            "'jet, shallow, 1/2 hp'",
        ),
        (
            STOCK.tank,
            "",
            "found ''; wanted the name of a tank in stock; write one of the 10 names in stock, such as "
            "'diaphragm tank, 20 gal'",
        ),
        (
            STOCK.fitting,
            "swing chek",
            "found 'swing chek'; wanted the name of a fitting in stock; did you mean 'swing check'?",
        ),
        (
            STOCK.ft,
            "5",
            "found '5'; wanted the name of a nominal size in stock; write one of the 9 names in stock, such as '1/2'",
        ),
    ],
)
def test_a_missing_name_offers_the_nearest(ask: Callable[[str], object], name: str, words: str) -> None:
    with pytest.raises(StockError) as caught:
        ask(name)
    assert str(caught.value) == words


def test_a_fitting_that_no_job_counts_is_named() -> None:
    with pytest.raises(StockError) as caught:
        STOCK.loss_coefficient({"elbow": 2}, "1")
    assert str(caught.value) == (
        "found 'elbow'; wanted the name of a fitting a job file counts in stock; did you mean 'elbows' or 'elbows45'?"
    )


PIPE = (
    "family,series,size,compound,outside_in,wall_in,bore_in,roughness_mm,roughness_fouled_mm,rating_psi,"
    "weight_lb_per_ft,coils_ft,price_cents_per_ft,origin\n"
    "tube,S 1,1,X,1.3,0.1,1.0,0.0015,0.05,160,0.2,100 200,50,ours\n"
)
VALVE = (
    "name,kind,size,bore_in,times_ft,full_lift_factor,opening_psi,attitudes,price_cents\n"
    "valve,spring,1,1.049,420,20,0.5,up down,100\n"
)
SCREEN = (
    "name,kind,diameter_in,length_in,opening_in,open_fraction,structure_fraction,price_cents\n"
    "screen,plate,4,12,0.09,0.33,0.9,100\n"
)
PUMP = (
    "name,stages,power_hp,service_factor,flow_gpm,head_ft,brake_hp,npsh_flow_gpm,npsh_ft,"
    "inlet,outlet,price_cents\n"
    "pump,1,1,1.25,0 10 20,100 90 60,0.5 0.8 1,0 20,5 9,1,1,100\n"
)
JET = (
    "name,power_hp,service_factor,lift_ft,pressure_psi,flow_gpm,inlet,outlet,price_cents\n"
    "jet,1,1.25,5 25,0 30 60,9 8 0 / 5 4 0,1,1,100\n"
)
TANK = "name,volume_gal,acceptance_gal,max_psi,price_cents\ntank,20,11,100,100\n"
FITTING = "kind,counted_as,times_ft,fixed,bore_ratio,origin\nelbow,elbows,30,,,ours\n"


def valves(text: str, file: str) -> list[object]:
    return list(foot_valves_in(text, file, {"1": 0.023, "2": 0.019}))


READERS: dict[str, tuple[Callable[[str, str], object], str]] = {
    "pipes": (lambda text, file: by_name(pipes_in(text, file), file), PIPE),
    "valves": (valves, VALVE),
    "screens": (lambda text, file: list(screens_in(text, file)), SCREEN),
    "pumps": (lambda text, file: list(pumps_in(text, file)), PUMP),
    "jets": (lambda text, file: list(jets_in(text, file)), JET),
    "tanks": (lambda text, file: list(tanks_in(text, file)), TANK),
    "fittings": (lambda text, file: list(fittings_in(text, file)), FITTING),
}


@pytest.mark.parametrize("table", READERS)
def test_a_sound_table_reads(table: str) -> None:
    read, text = READERS[table]
    assert read("# where it comes from\n\n" + text, "own.csv")


NUMBER = "wanted a number, 0 or more; write it in digits, such as 1.610"
WRONG_CELLS = [
    ("pipes", "1.0,0.0015", "one inch,0.0015", f"own.csv, line 2, bore_in: found 'one inch'; {NUMBER}"),
    ("pipes", "1.0,0.0015", "-1,0.0015", f"own.csv, line 2, bore_in: found '-1'; {NUMBER}"),
    ("pipes", "1.0,0.0015", "nan,0.0015", f"own.csv, line 2, bore_in: found 'nan'; {NUMBER}"),
    (
        "pipes",
        "1.0,0.0015",
        "0,0.0015",
        "own.csv, line 2, bore_in: found '0'; wanted a number above 0; look it up and write it in",
    ),
    (
        "pipes",
        "100 200",
        "200 100",
        "own.csv, line 2, coils_ft: found '200 100'; wanted numbers that rise; sort the points and write each once",
    ),
    (
        "pipes",
        "100 200",
        "",
        "own.csv, line 2, coils_ft: found nothing; wanted numbers parted by spaces; write such as 0 4 8 12",
    ),
    (
        "pipes",
        ",50,ours",
        ",0.50,ours",
        "own.csv, line 2, price_cents_per_ft: found '0.50'; wanted a whole number; write cents, so 12.50 as 1250",
    ),
    (
        "pipes",
        ",ours",
        ",ours, too",
        "own.csv, line 2: found 15 cells; wanted 14, one a column; put a text with commas between double quotes",
    ),
    (
        "valves",
        "spring,1,",
        "spring,1.25,",
        "own.csv, line 2, size: found '1.25'; wanted one of 1, 2; write a nominal size",
    ),
    (
        "valves",
        "up down",
        "up sideways",
        "own.csv, line 2, attitudes: found 'up sideways'; wanted up, side, down; write those it seats in",
    ),
    (
        "screens",
        "0.33",
        "33",
        "own.csv, line 2, open_fraction: found '33'; wanted a share up to 1; write 50 % as 0.5",
    ),
    (
        "pumps",
        "0 10 20",
        "1 10 20",
        "own.csv, line 2, flow_gpm: found '1 10 20'; wanted a first flow of 0; give the shut-off point",
    ),
    (
        "pumps",
        "100 90 60",
        "100 90",
        "own.csv, line 2, head_ft: found 2 numbers; wanted 3, as in flow_gpm; give one number for each of flow_gpm",
    ),
    (
        "jets",
        " / 5 4 0",
        "",
        "own.csv, line 2, flow_gpm: found 1 groups; wanted 2, as in lift_ft; part the lifts by /",
    ),
    (
        "jets",
        "5 4 0",
        "5 4 1",
        "own.csv, line 2, flow_gpm: found '5 4 1'; wanted a last flow of 0; give the shut-off pressure a column",
    ),
    ("tanks", "20,11", "20,", f"own.csv, line 2, acceptance_gal: found ''; {NUMBER}"),
    (
        "fittings",
        "30,,",
        "30,0.5,",
        "own.csv, line 2, kind: found times_ft and fixed; wanted one of times_ft, fixed, bore_ratio; "
        "leave the other two empty",
    ),
    (
        "fittings",
        "30,,",
        ",,",
        "own.csv, line 2, kind: found none; wanted one of times_ft, fixed, bore_ratio; leave the other two empty",
    ),
]


@pytest.mark.parametrize("table, old, new, words", WRONG_CELLS)
def test_a_wrong_cell_is_named(table: str, old: str, new: str, words: str) -> None:
    read, text = READERS[table]
    assert text.count(old) == 1
    with pytest.raises(StockError) as caught:
        read(text.replace(old, new), "own.csv")
    assert str(caught.value) == words


def test_a_name_given_twice_is_an_error() -> None:
    read, text = READERS["pipes"]
    with pytest.raises(StockError) as caught:
        read(text + text.splitlines()[1] + "\n", "own.csv")
    assert str(caught.value) == (
        "own.csv: found 'tube, S 1, 1 in' twice; wanted each name once; rename or remove one of the two"
    )
