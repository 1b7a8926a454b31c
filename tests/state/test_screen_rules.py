"""The screen rules by region: which is known where, on which area it counts, how well, and whom to ask."""

from __future__ import annotations

import pytest

from lakewright.api.explain import explain
from lakewright.job.read import read_job_text
from lakewright.sources import load_sources
from lakewright.state.assemble import Assembly, facts_of
from lakewright.state.gather import screen_rule_rows, screen_rules
from lakewright.state.screen_rules import ASK, every_rule, rule_for, rule_words
from lakewright.stock.load import load_stock


def assembled(region: str, grade: str, more: str = "") -> Assembly:
    text = f'[job]\nunits = "US"\ngrade = "{grade}"\n[site]\nkind = "lake"\n[site.rules]\nregion = "{region}"\n{more}'
    return facts_of(read_job_text(text), load_stock())


@pytest.mark.law
def test_a_region_has_one_rule_at_most() -> None:
    regions = [place.casefold() for row in screen_rule_rows().values() for place in row.get("regions", ())]
    assert len(regions) == len(set(regions)) > 10
    assert all(rule_for(place.upper()) is not None for place in regions)
    assert rule_for(None) is rule_for("Heron District") is None


@pytest.mark.message
@pytest.mark.parametrize("name", screen_rules())
def test_every_rule_says_its_area_and_how_well_it_is_known(name: str) -> None:
    words, row = rule_words(name, "US"), screen_rule_rows()[name]
    assert ("on the openings alone" in words) == screen_rules()[name].on_open
    for key in ("source", "opening_source"):
        if key in row:
            source = load_sources()[row[key]]
            assert f"{source} ({source.standing})" in words


@pytest.mark.message
def test_what_only_memory_has_is_told_as_such() -> None:
    assert "1995 (restated)" in rule_words("canada trout", "SI")
    assert "1995 (remembered)" in rule_words("canada trout", "SI")


@pytest.mark.message
def test_a_quote_takes_the_rule_of_its_region_and_says_whom_to_ask() -> None:
    found = assembled("Alaska", "quote")
    assert found.facts.site.screen_velocity[0] == screen_rules()["alaska"].velocity
    (why,) = [each.why for each in found.assumed if each.key == "site.screen_velocity"]
    assert why.startswith("what we know of Alaska is alaska: 0.50 ft/s on the area not behind structure")
    assert why.endswith(ASK)
    other = assembled("Heron District", "quote")
    assert other.facts.site.screen_velocity[0] == screen_rules()["federal passive"].velocity


@pytest.mark.message
def test_a_build_is_told_what_is_known_and_takes_nothing() -> None:
    found = assembled("California", "build")
    assert found.facts.site.screen_velocity[0] != found.facts.site.screen_velocity[0]
    assert "of California we know of california: 0.33 ft/s" in found.missing["site.screen_velocity"]


@pytest.mark.law
def test_a_rule_that_is_named_outweighs_the_region() -> None:
    found = assembled("Alaska", "quote", 'screen = "canada eel"')
    assert found.facts.site.screen_velocity[0] == screen_rules()["canada eel"].velocity


def test_explain_lists_the_rules_where_one_decides() -> None:
    assert explain("screen is slow enough").rules == every_rule("US")
    assert explain("water covers the inlet").rules == ()
