"""Woods and panels are found by the words makers use."""

import pytest

from scantling.errors import ScantlingError
from scantling.wood import (
    UnknownSpecies,
    all_panels,
    all_species,
    is_panel_name,
    is_species_name,
    panel_named,
    species_named,
)


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("walnut", "walnut, black"),
        ("Black Walnut", "walnut, black"),
        ("walnut, black", "walnut, black"),
        ("cherry", "cherry, black"),
        ("white oak", "oak, white"),
        ("red oak", "oak, northern red"),
        ("yellow-poplar", "yellow-poplar"),
        ("yellow poplar", "yellow-poplar"),
        ("poplar", "yellow-poplar"),
        ("white ash", "ash, white"),
        ("pine", "pine, eastern white"),
        ("hard maple", "maple, sugar (hard)"),
        ("sugar maple", "maple, sugar (hard)"),
        ("soft maple", "maple, red (soft)"),
        ("western redcedar", "cedar, western redcedar"),
        ("european oak", "oak, european"),
    ],
)
def test_woods_by_makers_words(words, name):
    # source: by hand; the trade's usual names
    assert species_named(words).name == name


def test_canonical_names_find_themselves():
    for species in all_species():
        assert species_named(species.name) is species
    for panel in all_panels():
        assert panel_named(panel.name) is panel


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("birch plywood", "birch plywood"),
        ("walnut plywood", "hardwood plywood"),
        ("white oak ply", "hardwood plywood"),
        ("MDF", "mdf"),
        ("cherry veneered mdf", "mdf"),
        ("chipboard", "particleboard"),
        ("OSB", "oriented strandboard"),
    ],
)
def test_panels_by_makers_words(words, name):
    # source: by hand; a face veneer does not change the core
    assert is_panel_name(words)
    assert panel_named(words).name == name


def test_a_wood_is_no_panel_and_a_panel_no_wood():
    assert not is_panel_name("walnut")
    assert not is_species_name("walnut plywood")
    assert not is_panel_name("moonwood plywood")


def test_unknown_wood_says_what_is_near():
    with pytest.raises(UnknownSpecies) as caught:
        species_named("walnutt")
    assert isinstance(caught.value, ScantlingError)
    assert "walnut" in caught.value.nearest
    assert 'no wood is called "walnutt"' in str(caught.value)


def test_unknown_panel_says_panel():
    with pytest.raises(UnknownSpecies, match=r'no panel is called "burch plywood" \(nearest: birch plywood'):
        panel_named("burch plywood")
