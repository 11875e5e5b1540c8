"""The bands in which texts are marked."""

from __future__ import annotations

from decimal import Decimal

from workbook.desk.band import BANDS, give


def test_bands_go_from_nothing_to_all() -> None:
    points = [give(band, Decimal(2)) for band, _ in BANDS]
    assert points == [Decimal(p) for p in ("0", "0.5", "1", "1.5", "2")]


def test_no_band_tells_its_points() -> None:
    assert not any(character.isdigit() for band, _ in BANDS for character in band)
