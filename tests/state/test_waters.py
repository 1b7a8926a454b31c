"""What a job takes from the record of its water: in which order, in which grade, and with whose word."""

from __future__ import annotations

import datetime
import json
from pathlib import Path

import pytest

from lakewright import units
from lakewright.api.waters import water_of
from lakewright.job.fact import Fact
from lakewright.job.fields import example, shape_at, shapes
from lakewright.job.models import Job
from lakewright.job.quantity import Quantity
from lakewright.job.read import read_job, read_job_text
from lakewright.job.read_water import read_water_text
from lakewright.job.water import Water, WaterDay
from lakewright.state.assemble import facts_of
from lakewright.state.gather import Assumed, defaults
from lakewright.state.waters import FILLS, Merge, merge_water, whose_word
from lakewright.stock.load import load_stock

FOOT = 0.3048  # exact by definition
ROOT = Path(__file__).parents[2]
TEN_FEET = "a dam means 10 ft of winter drawdown until shown otherwise (trade-practice)"
STRICT = "a build takes only what was measured or looked up"


def merged(job: str, water: str, grade: str = "quote") -> Merge:
    return merge_water(a_job(job, grade), a_water(water))


def a_job(text: str, grade: str = "quote") -> Job:
    return read_job_text(f'[job]\ngrade = "{grade}"\n{text}')


def a_water(text: str) -> Water:
    return read_water_text(f'name = "Pan Lake"\n{text}')


def told_by(text: str, said_by: str = "the neighbour", how: str = "told") -> str:
    return beside(json.dumps(text), said_by, how)


def beside(value: str, said_by: str, how: str) -> str:
    return f'{{ value = {value}, {how} = 2026-05-03, said_by = "{said_by}" }}'


def taken(merge: Merge, key: str) -> Assumed:
    (found,) = (assumed for assumed in merge.filled if assumed.key == key)
    return found


def keys(merge: Merge) -> list[str]:
    return [assumed.key for assumed in merge.filled]


def metres(quantity: Quantity | None) -> float:
    assert quantity is not None
    return quantity.value


# The order: job, then water, then default.


def test_the_water_fills_what_the_job_leaves_out() -> None:
    found = merged("", f"elevation = {told_by('1340 ft')}\n")
    assert metres(found.job.site.elevation) == pytest.approx(1340 * FOOT)
    assert taken(found, "site.elevation") == Assumed(
        "site.elevation",
        pytest.approx(1340 * FOOT),
        "elevation",
        "told",
        "told by the neighbour on 2026-05-03",
        from_record=True,
    )


def test_the_job_comes_before_the_water() -> None:
    found = merged('[site]\nelevation = "900 ft"\nweed = "some"\n', 'elevation = "1340 ft"\nweed = "many"\n')
    assert metres(found.job.site.elevation) == pytest.approx(900 * FOOT)
    assert found.job.site.weed == "some"
    assert found.filled == ()


def test_a_job_that_does_not_know_asks_the_water() -> None:
    found = merged('[site]\ndam = "unknown"\n[site.bed]\nkind = "unknown"\n', 'dam = "no"\nbed = "silt"\n')
    assert (found.job.site.dam, found.job.site.bed.kind) == ("no", "silt")
    assert taken(found, "site.bed.kind").text == "silt"


def test_a_water_that_does_not_know_fills_nothing() -> None:
    found = merged("", 'dam = "unknown"\nweed = "unknown"\n[rules]\ndrinking = "not asked"\n')
    assert found.filled == ()
    assert found.job == a_job("")


def test_the_water_comes_before_the_default() -> None:
    stock, job = load_stock(), a_job("")
    without = facts_of(job, stock).facts
    found = facts_of(
        merge_water(job, a_water('elevation = "5000 ft"\n[levels]\nflood = "1 ft"\nlow = "-1 ft"\n')).job, stock
    )
    assert without.site.elevation[0] == pytest.approx(defaults()["site.elevation"].value)
    assert found.facts.site.elevation[0] == pytest.approx(5000 * FOOT)
    assert found.facts.site.flood[0] == pytest.approx(FOOT)
    assert found.facts.days.level.min() == pytest.approx(-FOOT)
    assert not {a.key for a in found.assumed} & {"site.elevation", "site.flood", "days.level"}


def test_the_job_that_is_given_stays_as_it_was() -> None:
    job = a_job("")
    before = job.model_dump()
    merge_water(job, a_water('weed = "many"\n[levels]\nlow = "-1 ft"\n[[days]]\nname = "May"\n'))
    assert job.model_dump() == before


@pytest.mark.parametrize("place, source", FILLS.items(), ids=FILLS)
def test_every_fact_of_the_record_has_its_field(place: str, source: str) -> None:
    *heads, last = source.split(".")
    shape = shape_at(tuple(source.split(".")), Water)
    assert shape is not None
    value = '"asked"' if last == "drinking" else example(shape)
    head = f"[{heads[0]}]\n" if heads else ""
    found = merged("", f"{head}{last} = {beside(value, 'the neighbour', 'told')}\n")
    assumed = taken(found, place)
    assert assumed.why == "told by the neighbour on 2026-05-03"
    assert bool(assumed.text) == (shape.dimension is None)
    assert assumed.text or assumed.kind in units.KINDS
    read_again: object = found.job
    for name in place.split("."):
        read_again = getattr(read_again, name)
    assert read_again not in (None, [])


def test_a_filled_quantity_says_whose_word_it_is() -> None:
    fact = '{ value = "2 ft", measured = 2026-05-03, said_by = "the shop", note = "wrack line" }'
    flood = merged("", f"[levels]\nflood = {fact}\n").job.site.levels.flood
    assert flood is not None
    assert (flood.standing, flood.since) == ("measured", datetime.date(2026, 5, 3))
    assert flood.note == "from the water's record, measured by the shop on 2026-05-03: wrack line"


@pytest.mark.message
@pytest.mark.parametrize(
    "fact, words",
    [
        (Fact(1, "told", datetime.date(2026, 5, 3), "the diver", ""), "told by the diver on 2026-05-03"),
        (Fact(1, "looked up", datetime.date(2026, 5, 3), "", ""), "looked up on 2026-05-03"),
        (Fact(1, "assumed", None, "the shop", ""), "assumed by the shop"),
        (Fact(1, "measured", None, "", ""), "measured"),
        (Fact(1, "", None, "", ""), "which does not say by whom"),
    ],
)
def test_whose_word(fact: Fact[int], words: str) -> None:
    assert whose_word(fact) == words


def test_who_controls_the_level_and_how_to_reach_them_become_one() -> None:
    keeper, reach = told_by("the keeper", how="looked_up"), told_by("a note at the gate", "the mill")
    found = merged("", f"controlled_by = {keeper}\nreach = {reach}\n")
    assert found.job.site.levels.who == "the keeper; a note at the gate"
    assert taken(found, "site.levels.who").why == "told by the mill on 2026-05-03"
    assert merged("", f"controlled_by = {keeper}\n").job.site.levels.who == "the keeper"


def test_the_answer_of_the_authority_keeps_its_date() -> None:
    rules = merged("", f"[rules]\ndrinking = {told_by('answered no')}\n").job.site.rules
    assert (rules.drinking, rules.asked) == ("answered no", datetime.date(2026, 5, 3))


# Levels.


def test_the_lowest_level_of_the_record_is_the_low_of_the_job() -> None:
    levels = f"[levels]\nlow = {told_by('-1 ft')}\nlowest_seen = {told_by('-3 ft', 'the owner')}\n"
    found = merged("", levels)
    assert metres(found.job.site.levels.low) == pytest.approx(-3 * FOOT)
    why = "told by the owner on 2026-05-03: the lowest seen"
    assert taken(found, "site.levels.low").why == why
    swapped = merged("", '[levels]\nlow = "-3 ft"\nlowest_seen = "-1 ft"\n')
    assert metres(swapped.job.site.levels.low) == pytest.approx(-3 * FOOT)


@pytest.mark.parametrize("key", ["low", "lowest_seen"])
def test_a_low_of_the_job_is_its_own(key: str) -> None:
    found = merged(f'[site.levels]\n{key} = "-2 ft"\n', 'dam = "yes"\n[levels]\nlow = "-9 ft"\n')
    assert metres(getattr(found.job.site.levels, key)) == pytest.approx(-2 * FOOT)
    assert keys(found) == ["site.dam"]


# Behind a dam.

FEBRUARY = '[[days]]\nname = "February"\nmonths = ["February"]\nwater = "34 F"\nice = "20 in"\n'
JULY = '[[days]]\nname = "July"\nmonths = ["July"]\nlevel = "0 ft"\nwater = "68 F"\n'


def test_a_dam_without_a_drawdown_means_ten_feet_on_its_winter_days() -> None:
    found = merged("", f'dam = "yes"\n{JULY}{FEBRUARY}')
    july, february = found.job.site.days
    assert metres(july.level) == 0.0
    assert metres(february.level) == pytest.approx(-10 * FOOT)
    assert february.level is not None
    assert (february.level.standing, february.level.text) == ("assumed", "-10.0 ft")
    assert metres(found.job.site.dam_drawdown) == pytest.approx(10 * FOOT)
    assert taken(found, "site.dam_drawdown").why == TEN_FEET
    assert taken(found, "site.days.level").why == f"February: {TEN_FEET}"
    assert metres(found.job.site.levels.low) == pytest.approx(-10 * FOOT)


def test_a_winter_day_with_its_own_level_shows_otherwise() -> None:
    found = merged("", f'dam = "yes"\n{JULY}{FEBRUARY}level = "-4 ft"\n')
    assert metres(found.job.site.days[1].level) == pytest.approx(-4 * FOOT)
    assert found.job.site.dam_drawdown is None
    assert keys(found) == ["site.dam", "site.days"]


def test_a_drawdown_on_record_is_taken_and_says_whose_word_it_is() -> None:
    drawdown = told_by("5..7 ft", "the keeper")
    levels = f'[levels]\ndrawdown = {drawdown}\ndrawdown_months = ["November", "February"]\n'
    november = '[[days]]\nname = "November"\nmonths = ["November"]\n'
    found = merged("", f'dam = "yes"\n{levels}{JULY}{FEBRUARY}{november}')
    _, february, late = found.job.site.days
    assert february.level == late.level
    assert february.level is not None
    assert (february.level.low, february.level.high) == (pytest.approx(-7 * FOOT), pytest.approx(-5 * FOOT))
    assert taken(found, "site.days.level") == Assumed(
        "site.days.level",
        pytest.approx(-6 * FOOT),
        "height",
        "told",
        "February, November: told by the keeper on 2026-05-03",
        from_record=True,
    )


def test_the_usual_days_stand_as_low_as_the_dam_leaves_them() -> None:
    found = merged("", 'dam = "yes"\n[levels]\nlow = "-2 ft"\n')
    assert metres(found.job.site.levels.low) == pytest.approx(-10 * FOOT)
    assert taken(found, "site.levels.low").why == TEN_FEET
    facts = facts_of(found.job, load_stock()).facts
    level = dict(zip(facts.day_names, facts.days.level, strict=True))
    assert level["February under ice"] == pytest.approx(-10 * FOOT)


def test_a_line_that_is_hauled_out_has_no_winter() -> None:
    found = merged('[need]\nseason = "hauled"\n', f'dam = "yes"\n[levels]\nlow = "-2 ft"\n{JULY}{FEBRUARY}')
    assert [day.name for day in found.job.site.days] == ["July"]
    assert metres(found.job.site.levels.low) == pytest.approx(-2 * FOOT)
    assert found.job.site.dam_drawdown is None


def test_a_dam_that_the_job_knows_of_counts_as_well() -> None:
    job = '[site]\ndam = "yes"\n[[site.days]]\nname = "iced"\nice = "2 ft"\n[[site.days]]\nname = "other"\n'
    iced, other = merged(job, "").job.site.days
    assert metres(iced.level) == pytest.approx(-10 * FOOT)
    assert other.level is None
    assert keys(merged(job.replace('"yes"', '"no"'), 'dam = "yes"\n')) == []


def test_a_drawdown_of_the_job_comes_first() -> None:
    job = '[site]\ndam_drawdown = "3 ft"\n[[site.days]]\nname = "iced"\nice = "2 ft"\n'
    found = merged(job, 'dam = "yes"\n[levels]\ndrawdown = "8 ft"\n')
    assert metres(found.job.site.days[0].level) == pytest.approx(-3 * FOOT)
    assert taken(found, "site.days.level").why == "iced: as far under the usual level as [site] dam_drawdown says"


# Days.


def test_days_come_from_the_water_when_the_job_has_none() -> None:
    told = f"{JULY}current = {told_by('1 ft/s', 'the diver')}\n{FEBRUARY}dirt = 0.2\n"
    found = merged("", told.replace('level = "0 ft"', f"level = {told_by('0 ft')}"))
    july, february = found.job.site.days
    assert (july.name, july.months, july.by) == ("July", ["July"], "the neighbour; the diver")
    assert (metres(february.water), metres(february.dirt)) == (pytest.approx(units.read("34 F", "temperature")), 0.2)
    assert february.by is None
    days = taken(found, "site.days")
    assert (days.text, days.standing) == ("July, February", "told")
    assert days.why == (
        "told by the neighbour on 2026-05-03; told by the diver on 2026-05-03; the rest on nobody's word"
    )


def test_a_job_with_days_keeps_them() -> None:
    found = merged('[[site.days]]\nname = "mine"\n', JULY + FEBRUARY)
    assert [day.name for day in found.job.site.days] == ["mine"]
    assert found.filled == ()


def test_a_day_of_the_record_has_every_field_of_a_day_of_a_job() -> None:
    from lakewright.job.models_site import Day

    assert set(shapes(WaterDay)) == set(Day.model_fields) - {"by"}


# Grade.


@pytest.mark.message
def test_a_build_takes_only_what_was_measured_or_looked_up() -> None:
    water = "\n".join(
        [
            f"elevation = {told_by('1340 ft', how='looked_up')}",
            f"weed = {told_by('none', how='measured')}",
            f"bed = {told_by('silt', how='assumed')}",
            'mussels = "none"',
            "[levels]",
            f"flood = {told_by('2 ft')}",
        ]
    )
    found = merged("", water, "build")
    assert keys(found) == ["site.elevation", "site.weed"]
    site = found.job.site
    assert (site.weed, site.bed.kind, site.mussels, site.levels.flood) == ("none", None, None, None)
    assert found.left_out == {
        "site.mussels": f"none, from the water's record, which does not say by whom: {STRICT}",
        "site.levels.flood": f"+2.0 ft, from the water's record, told by the neighbour on 2026-05-03: {STRICT}",
        "site.bed.kind": f"silt, from the water's record, assumed by the neighbour on 2026-05-03: {STRICT}",
    }


@pytest.mark.message
def test_a_build_takes_all_the_days_or_none() -> None:
    def day(how: str) -> str:
        level, ice = told_by("-1 ft", how="measured"), told_by("2 ft", how=how)
        return f'[[days]]\nname = "iced"\nlevel = {level}\nice = {ice}\ndirt = "50 %"\n'

    whole = merged("", day("looked_up"), "build")
    assert [day.name for day in whole.job.site.days] == ["iced"]
    assert taken(whole, "site.days").standing == "looked up"
    none = merged("", day("told"), "build")
    assert none.job.site.days == []
    assert none.left_out == {
        "site.days": f"ice of iced, from the water's record, told by the neighbour on 2026-05-03: {STRICT}"
    }


def test_a_build_does_not_assume_a_drawdown_nor_a_low_without_it() -> None:
    levels = f"[levels]\nlow = {told_by('-2 ft', how='measured')}\n"
    for water in (f'dam = "yes"\n{levels}', f'{levels}drawdown = "4 ft"\n'):
        found = merged("", water, "build")
        assert found.job.site.levels.low is None
        assert found.job.site.dam_drawdown is None
        why = "nobody has measured or looked up how far this water is drawn down in winter"
        assert found.left_out["site.levels.low"] == why
        assert "days.level" in facts_of(found.job, load_stock()).missing


def test_a_build_takes_a_drawdown_that_was_looked_up() -> None:
    drawdown = told_by("8 ft", "the keeper", "looked_up")
    found = merged("", f'dam = "yes"\n[levels]\ndrawdown = {drawdown}\n', "build")
    assert metres(found.job.site.levels.low) == pytest.approx(-8 * FOOT)
    why = "looked up by the keeper on 2026-05-03"
    assert taken(found, "site.levels.low").why == why


def test_a_build_takes_no_low_where_someone_told_of_a_lower() -> None:
    measured = f"[levels]\nlow = {told_by('-2 ft', how='measured')}\n"
    lower = merged("", f"{measured}lowest_seen = {told_by('-3 ft')}\n", "build")
    assert lower.job.site.levels.low is None
    assert lower.left_out["site.levels.low"] == lower.left_out["site.levels.lowest_seen"]
    higher = merged("", f"{measured}lowest_seen = {told_by('-1 ft')}\n", "build")
    assert metres(higher.job.site.levels.low) == pytest.approx(-2 * FOOT)


# The examples.


def test_a_quote_that_says_only_its_water_has_the_whole_site() -> None:
    job = a_job('[site]\nwater = "quill forge flowage"\n')
    water = water_of(job, ROOT / "examples" / "none.toml")
    assert water is not None
    found = merge_water(job, water)
    facts = facts_of(found.job, load_stock()).facts
    assert facts.day_names == ("August, lowest summer water", "April flood", "February under ice")
    assert facts.days.level.tolist() == pytest.approx([-0.6, 0.9, -10 * FOOT])
    assert facts.site.elevation[0] == 300.0


def test_the_cabin_keeps_its_own_facts() -> None:
    path = ROOT / "examples" / "year_round_cabin.toml"
    job = read_job(path)
    water = water_of(job, path)
    assert water is not None
    found = merge_water(job, water)
    stock = load_stock()
    before, after = facts_of(job, stock), facts_of(found.job, stock)
    assert found.job.site.days == job.site.days
    assert found.job.site.levels == job.site.levels
    assert before.missing == after.missing
    assert all(assumed.standing in ("measured", "looked up") for assumed in found.filled)
