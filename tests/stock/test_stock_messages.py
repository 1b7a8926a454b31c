"""The exact words for a name that is not there and for a cell that will not do."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from lakewright.errors import StockError
from lakewright.stock import readers
from lakewright.stock.load import load_stock
from lakewright.stock.table import Line, Table, lines_of

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


PRICED = "counter_cents,trade_cents,web_cents,priced,supplier,lead_days,bin"
PRICES = "1000,800,900,2026-03-02,here,2,A"
PIPE = (
    "family,series,size,compound,compound_class,outside_in,wall_in,bore_in,roughness_mm,roughness_fouled_mm,"
    f"rating_psi,vacuum_inhg,potable,sunlight,weight_lb_per_ft,coils_ft,{PRICED},origin\n"
    f"PVC,S 1,1,X,PVC,1.3,0.1,1.0,0.0015,0.05,160,,yes,no,0.2,100 200,{PRICES},ours\n"
)
VALVE = (
    "name,kind,size,material,bore_in,times_ft,full_lift_factor,opening_psi,attitudes,strainer_opening_in,"
    f"strainer_area_in2,weight_lb,{PRICED}\n"
    f"valve,spring,1,brass,1.049,420,20,0.5,up down,0.1,3,1.2,{PRICES}\n"
)
SCREEN = (
    f"name,kind,diameter_in,length_in,opening_in,open_fraction,structure_fraction,weight_lb,{PRICED}\n"
    f"screen,plate,4,12,0.09,0.33,0.9,3,{PRICES}\n"
)
PUMP = (
    "name,stages,power_hp,service_factor,flow_gpm,head_ft,brake_hp,npsh_flow_gpm,npsh_ft,"
    f"inlet,outlet,weight_lb,{PRICED}\n"
    f"pump,1,1,1.25,0 10 20,100 90 60,0.5 0.8 1,0 20,5 9,1,1,40,{PRICES}\n"
)
JET = (
    f"name,power_hp,service_factor,lift_ft,pressure_psi,flow_gpm,inlet,outlet,weight_lb,{PRICED}\n"
    f"jet,1,1.25,5 25,0 30 60,9 8 0 / 5 4 0,1,1,40,{PRICES}\n"
)
TANK = f"name,volume_gal,acceptance_gal,max_psi,connection,weight_lb,{PRICED}\ntank,20,11,100,1,29,{PRICES}\n"
PART = (
    "name,kind,series,size,material,ports,bore_in,times_ft,branch_times_ft,fixed,length_in,rating_psi,weight_lb,"
    f"figures,{PRICED},sold_by,origin\n"
    "part,pressure switch,,1/4,steel,thread in 1/4 NPT,0.25,,,,,100,1,"
    f"cut_in 30 psi; cut_out 50 psi; power 2 hp,{PRICES},piece,ours\n"
)
FITTING = "kind,counted_as,times_ft,fixed,bore_ratio,origin\nelbow,elbows,30,,,ours\n"


def valve_in(line: Line) -> object:
    return readers.foot_valve_in(line, {"1": 0.023, "2": 0.019})


def part_in(line: Line) -> object:
    return readers.part_in(line, {"thread 1/4 NPT": 0.01})


READERS: dict[str, tuple[Callable[[Line], object], str]] = {
    "pipes": (readers.pipe_in, PIPE),
    "valves": (valve_in, VALVE),
    "screens": (readers.screen_in, SCREEN),
    "pumps": (readers.pump_in, PUMP),
    "jets": (readers.jet_in, JET),
    "tanks": (readers.tank_in, TANK),
    "parts": (part_in, PART),
    "fittings": (readers.fitting_in, FITTING),
}


def rows(table: str, text: str) -> list[object]:
    read, _ = READERS[table]
    return [read(line) for line in lines_of(text, "own.csv")]


@pytest.mark.parametrize("table", READERS)
def test_a_sound_table_reads(table: str) -> None:
    _, text = READERS[table]
    assert len(rows(table, "# where it comes from\n\n" + text)) == 1


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
        ",1000,800",
        ",10.00,800",
        "own.csv, line 2, counter_cents: found '10.00'; wanted a whole number; write cents, so 12.50 as 1250",
    ),
    (
        "pipes",
        ",ours",
        ",ours, too",
        "own.csv, line 2: found 25 cells; wanted 24, one a column; put a text with commas between double quotes",
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
    (
        "pipes",
        "PVC,S",
        "tube,S",
        "own.csv, line 2, family: found 'tube'; wanted one of polyethylene, HDPE, CTS tubing, PVC, copper, "
        "galvanized steel, suction hose, lay-flat; write the family whose ends it has, and say more in the name",
    ),
    (
        "pipes",
        "1.0,0.0015",
        "25.4,0.0015",
        "own.csv, line 2, bore_in: found '25.4'; wanted 0.5 to 1.5 in for size 1; give inches, not millimetres",
    ),
    (
        "pipes",
        "1.3,0.1",
        "0.9,0.1",
        "own.csv, line 2, outside_in: found 0.9, and a bore of 1.0; wanted an outside wider than the bore; "
        "change places, or measure again",
    ),
    (
        "pipes",
        "1.3,0.1",
        "1.3,0.7",
        "own.csv, line 2, wall_in: found '0.7'; wanted less than half of the outside, 1.3; measure again",
    ),
    ("pipes", "yes,no", "oui,no", "own.csv, line 2, potable: found 'oui'; wanted yes or no; write one of the two"),
    (
        "valves",
        "spring,1,",
        "hinged,1,",
        "own.csv, line 2, attitudes: found 'up down'; wanted down, for a hinged disc; a hinged disc shuts by its "
        "own weight and must hang",
    ),
    (
        "pumps",
        "100 90 60",
        "60 90 100",
        "own.csv, line 2, head_ft: found '60 90 100'; wanted less head at run-out than at shut-off; write the heads "
        "in the order of the flows",
    ),
    (
        "tanks",
        "20,11",
        "20,21",
        "own.csv, line 2, acceptance_gal: found '21'; wanted less than the whole volume, 20; give the most water "
        "the diaphragm lets in",
    ),
    (
        "tanks",
        "100,1,",
        "100,1.25,",
        "own.csv, line 2, connection: found '1.25'; wanted a nominal size such as 1-1/2; write 1-1/4",
    ),
    (
        "screens",
        "800,",
        "1800,",
        "own.csv, line 2, trade_cents: found 1800, over the counter's 1000; wanted no more than it; change places",
    ),
    (
        "screens",
        "2026-03-02",
        "3/2/26",
        "own.csv, line 2, priced: found '3/2/26'; wanted a date; write it as 2026-05-03",
    ),
    ("screens", "here", "", "own.csv, line 2, supplier: found nothing; wanted a word or two; write it in"),
    (
        "parts",
        "thread in 1/4 NPT",
        "screwed 1/4 NPT",
        "own.csv, line 2, ports: found 'screwed 1/4 NPT'; wanted one of thread in, thread out, barb, hose, socket, "
        "compression, fuse, union, plain end first; write such as thread in 1-1/4 NPT",
    ),
    (
        "parts",
        "in 1/4 NPT",
        "in quarter NPT",
        "own.csv, line 2, ports: found 'thread in quarter NPT'; wanted a nominal size after thread in; write such "
        "as thread in 1-1/4",
    ),
    (
        "parts",
        "1/4 NPT",
        "1/4 BSP",
        "own.csv, line 2, ports: found 'thread in 1/4 BSP'; wanted one of NPT, GHT after the size; write such as "
        "thread in 1/4 NPT",
    ),
    (
        "parts",
        "1/4 NPT",
        "4 GHT",
        "own.csv, line 2, ports: found 'thread in 4 GHT'; wanted a port of a size that is made; write a size in "
        "make_up.csv",
    ),
    (
        "parts",
        "cut_out 50 psi",
        "stops 50 psi",
        "own.csv, line 2, figures: found 'stops'; wanted one of cut_in, cut_out, power; take it out",
    ),
    (
        "parts",
        "; cut_out 50 psi",
        "",
        "own.csv, line 2, figures: found no cut_out; wanted cut_in, cut_out, power of a pressure switch; write such "
        "as cut_out and its unit",
    ),
    ("parts", "piece", "dozen", "own.csv, line 2, sold_by: found 'dozen'; wanted one of piece, ft; say piece or ft"),
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
    _, text = READERS[table]
    assert text.count(old) == 1
    with pytest.raises(StockError) as caught:
        rows(table, text.replace(old, new))
    assert str(caught.value) == words


def test_a_name_given_twice_is_an_error(tmp_path: Path) -> None:
    file = tmp_path / "own.csv"
    file.write_text(PIPE + PIPE.splitlines()[1] + "\n", encoding="utf-8")
    with pytest.raises(StockError) as caught:
        list(Table(readers.pipe_in, readers.pipe_name, (file,)))
    assert str(caught.value) == (
        "own.csv: found 'PVC, S 1, 1 in' twice; wanted each name once; rename or remove one of the two"
    )


def test_money_is_read_in_cents_or_after_a_dollar_sign() -> None:
    line = Line("own.csv", 2, {"a": "1250", "b": "$12.50", "c": "$12"})
    assert [line.cents(column) for column in "abc"] == [1250, 1250, 1200]


def test_a_size_a_spreadsheet_took_for_a_date_is_told_from_any_other() -> None:
    with pytest.raises(StockError) as caught:
        Line("own.csv", 2, {"size": "46024"}).size("size")
    assert str(caught.value) == (
        "own.csv, line 2, size: found '46024'; wanted a nominal size such as 1-1/2; a spreadsheet took a size such "
        "as 1/2 for a date: set the column to text and type it again"
    )
