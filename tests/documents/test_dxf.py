"""The bench drawing as DXF, read back: sound, full size, and every dimension measures what the stand does."""

from __future__ import annotations

import importlib
import io
import math
import re
import subprocess
import sys
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from lakewright.api.packet import packet
from lakewright.documents import dxf as written
from lakewright.documents.bench import bench
from lakewright.documents.dxf import LAYERS, dxf
from lakewright.errors import AskError
from lakewright.stock.measure import INCH
from tests.documents.benches import FEW, MANY, made, report, system_of
from tests.job.example import EXAMPLE
from tests.state.random_stands import STOCK, stand

ezdxf = pytest.importorskip("ezdxf")
STANDS = [*FEW[:8], *(pytest.param(seed, marks=pytest.mark.slow) for seed in [*FEW[8:], *MANY])]
UNIT = {"US": INCH, "SI": 0.001}


def read_back(seed: int) -> Any:
    _, drawn = made(seed)
    return ezdxf.read(io.StringIO(dxf(drawn, system_of(seed)).decode("utf-8")))


@pytest.mark.parametrize("seed", STANDS)
def test_it_is_sound_and_its_dimensions_measure_what_the_stand_does(seed: int) -> None:
    built, drawn = made(seed)
    document, unit = read_back(seed), UNIT[system_of(seed)]
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    space = document.modelspace()
    entities = space.query("DIMENSION")
    found = sorted(unit * entity.get_measurement() for entity in entities)
    assert found == pytest.approx(sorted(each.measure.value for each in drawn.dimensions), abs=1e-9)
    for entity in entities:
        # The figure is what is measured, and not a word that stays when it moves.
        assert entity.dxf.text == "<>"
        assert entity.dxf.actual_measurement == pytest.approx(entity.get_measurement())
        style = entity.get_dim_style().dxf
        assert (style.dimlfac, style.dimzin) == (1.0, 0)
    if built.tips:
        heights = [height for height in (built.axis_height, built.inlet_height) if height > 1e-6]
        assert all(min(abs(height - value) for value in found) < 1e-9 for height in heights)
    assert {entity.dxf.layer for entity in space} <= set(LAYERS)


@pytest.mark.parametrize("system", ["US", "SI"])
@pytest.mark.parametrize("wet", [True, False])
def test_it_is_full_size_from_the_bed_under_the_riser(system: str, wet: bool) -> None:
    built = stand(3, form="upright", legs=4, wet=wet)
    document = ezdxf.read(io.StringIO(dxf(bench(built, STOCK, report(system)), system).decode("utf-8")))
    unit = UNIT[system]
    assert document.header["$INSUNITS"] == {"US": 1, "SI": 4}[system]
    lines = [(line.dxf.start, line.dxf.end) for line in document.modelspace().query("LINE[layer=='pipe']")]
    pieces = [each for each in built.placed if each.role == "riser" and each.kind in ("nipple", "pipe")]
    assert pieces
    for piece in pieces:
        # On either side of the axis a line from the one end of the piece to the other.
        ends = sorted(at[2] / unit for at in piece.segments[0])
        for side in (-0.5 * piece.outside / unit, 0.5 * piece.outside / unit):
            spans = [sorted((start.y, end.y)) for start, end in lines if start.x == end.x == pytest.approx(side)]
            assert ends in [pytest.approx(span) for span in spans]


def test_words_take_the_width_that_was_measured() -> None:
    _, drawn = made(1)
    full = 0.001 * drawn.scale.mm
    texts = read_back(1).modelspace().query("TEXT")
    wide = sorted(round((text.dxf.align_point - text.dxf.insert).magnitude * full, 6) for text in texts)
    carried = [text for text in drawn.scene.texts() if text.role != "dimension figure"]
    assert wide == pytest.approx(sorted(text.width for text in carried), abs=1e-5)


@pytest.mark.serial
def test_the_same_drawing_gives_the_same_bytes_in_another_run() -> None:
    program = (
        "import hashlib; from tests.documents.benches import made; from lakewright.documents.dxf import dxf;"
        " print(hashlib.sha256(dxf(made(4)[1], 'US')).hexdigest())"
    )
    root = Path(__file__).resolve().parents[2]
    runs = [
        subprocess.run([sys.executable, "-c", program], cwd=root, capture_output=True, text=True, check=True,
                       env={"PYTHONHASHSEED": seed, "PYTHONPATH": f"{root / 'src'}:{root}"}).stdout
        for seed in ("1", "2")
    ]  # fmt: skip
    assert runs[0] == runs[1]
    assert re.fullmatch(r"[0-9a-f]{64}\n", runs[0])


def test_the_packet_holds_it_when_asked(tmp_path: Path) -> None:
    pytest.importorskip("typst")
    files = packet(EXAMPLE, tmp_path, ["bench"])
    made = {file.name: file for file in files if "-bench." in file.name}
    assert list(made) == [f"year_round_cabin-bench.{end}" for end in ("pdf", "svg", "dxf")]
    assert made["year_round_cabin-bench.pdf"].read_bytes().startswith(b"%PDF-")
    document = ezdxf.readfile(made["year_round_cabin-bench.dxf"])
    assert any(math.isclose(each.get_measurement() * INCH, 0.03048) for each in document.query("DIMENSION"))


@pytest.mark.message
def test_a_sheet_that_is_not_known_is_refused(tmp_path: Path) -> None:
    with pytest.raises(AskError, match="--also stool: no sheet is called that; there is quote, pick, card, site"):
        packet(EXAMPLE, tmp_path / "out", ["stool"])
    assert not (tmp_path / "out").exists()


@pytest.mark.message
def test_without_ezdxf_it_says_what_to_install_and_writes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pytest.importorskip("typst")
    real = importlib.import_module

    def missing(name: str, package: str | None = None) -> ModuleType:
        if name == "ezdxf":
            raise ImportError(name)
        return real(name, package)

    monkeypatch.setattr(written, "import_module", missing)
    with pytest.raises(AskError, match=re.escape("a DXF is written by ezdxf, which is not installed")):
        packet(EXAMPLE, tmp_path / "out", ["bench"])
    assert not (tmp_path / "out").exists()
