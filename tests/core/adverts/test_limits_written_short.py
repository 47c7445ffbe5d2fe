"""Limits of inverters with a stroke between, by one letter, and beside the volts of the grid; half cells as HZ."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def inverter_of(title, body):
    return read_advert(Advert(title=title, body=body), WORDS).inverter


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Micro inverter 700 W", "MPPT 24/54 V, Udc max 60 V"),
        ("Mikrowechselrichter 700 W", "Umax 60 V, MPP 24/54 V"),
        ("Micro-omvormer 700 W", "Vmax 60 V, 24/54 V"),
        ("Micro-onduleur 700 W", "Udc max 60 V, MPPT 24/54 V"),
        ("Microinversor 700 W", "MPPT 24/54 V, Umax 60 V"),
        ("Microinverter 700 W", "Vmax 60 V, MPPT 24/54 V"),
        ("Mikroinwerter 700 W", "Umax 60 V, MPPT 24/54 V"),
        ("Mikroměnič 700 W", "Umax 60 V, MPPT 24/54 V"),
        ("Mikroinverter 700 W", "Udc max 60 V, MPPT 24/54 V"),
    ],
)
def test_a_stroke_parts_the_ends_of_the_range_and_u_max_is_what_it_bears(title, body):
    found = inverter_of(title, body)
    assert (found["tracking_min_v"], found["tracking_max_v"], found["max_input_voltage_v"]) == (24, 54, 60)


@pytest.mark.parametrize(
    "body",
    ["12/24 V", "110/230 V", "230/400 V", "Start/max 24/60 V", "54/60 V", "3/60 V"],
)
def test_two_volts_of_batteries_grids_or_limits_are_no_range(body):
    assert "tracking_min_v" not in inverter_of("Inverter 700 W", body)


def test_of_a_panel_u_max_is_its_volts_at_full_power_and_beside_an_inverter_nobody_knows():
    panel = read_advert(Advert(title="Solarmodul 410 W", body="Umax 31,4 V"), WORDS).panel
    assert panel["max_power_voltage_v"] == 31.4
    both = read_advert(Advert(title="2 Module 410 W mit Wechselrichter", body="Umax 58 V"), WORDS).panel
    assert "max_power_voltage_v" not in both


@pytest.mark.parametrize(
    "body",
    ["700 W output (230 V / 3.0 A)", "Ausgang 700 W, 3,0 A @ 230 V", "Sortie 700 W (3,0 A / 230 V)"],
)
def test_amperes_at_the_volts_of_the_grid_are_no_input(body):
    found = inverter_of("Inverter", body)
    assert found["ac_power_w"] == 700
    assert "max_current_a" not in found


@pytest.mark.parametrize(
    ("body", "cells"),
    [("430 W, 108 HZ", 54), ("430 Wp, 144 HZ-Zellen", 72), ("430 W, 120 hz", 60), ("430 W, 50 Hz", None)],
)
def test_hz_on_a_panel_counts_half_cells_where_no_grid_has_so_many(body, cells):
    assert read_advert(Advert(title="Solarmodul", body=body), WORDS).panel.get("cells_in_series") == cells


@pytest.mark.parametrize(
    ("title", "body", "limit"),
    [
        ("Micro inverter 500 W", "Grid: Umax 253 V", None),
        ("Micro inverter 500 W", "Umax 264 V AC, max input 55 V", 55),
        ("Mikrowechselrichter 500 W", "Netz: Umin 196 V, Umax 253 V; DC: Umax 55 V", 55),
        ("Mikrowechselrichter 500 W", "AC: 230 V, Umax 253 V", None),
        ("Micro-omvormer 500 W", "Umax net 253 V", None),
        ("Micro-omvormer 500 W", "net 230 V, Umax 55 V", 55),
        ("Micro-onduleur 500 W", "Umax réseau 253 V, Umax CC 55 V", 55),
        ("Microinversor 500 W", "Red: Umax 253 V", None),
        ("Microinversor 500 W", "Umax 55 V, red 230 V", 55),
        ("Microinverter 500 W", "Umax rete 253 V, Umax CC 55 V", 55),
        ("Mikroinwerter 500 W", "Umax sieci 253 V", None),
        ("Mikroinwerter 500 W", "Umax DC 55 V, sieć Umax 253 V", 55),
        ("Microinversor 500 W", "Umax da rede 253 V, entrada Umax 55 V", 55),
        ("Mikroměnič 500 W", "Síť: Umax 253 V", None),
        ("Mikroměnič 500 W", "Umax DC 55 V, síť Umax 253 V", 55),
        ("Mikroinverter 500 W", "Net: Umax 253 V", None),
        ("Mikroinverter 500 W", "Umax DC 55 V, Umax 253 V AC", 55),
        ("Inverter 500 W", "Umax 132 V, grid 120 V", None),
        ("Inverter 500 W", "Umax 1000 V", None),
        ("Inverter 3000 W", "Grid 400 V, max. 460 V", None),
        ("Mikroinverter 500 W", "Maks. netspænding 460 V, maks. indgangsspænding 55 V", 55),
        ("String inverter 3000 W", "Umax DC 600 V", 600),
    ],
)
def test_the_greatest_volts_of_a_grid_are_none_that_an_input_bears(title, body, limit):
    assert inverter_of(title, body).get("max_input_voltage_v") == limit


@pytest.mark.parametrize(
    "body",
    [
        "Order code 24/56 V",
        "Charging voltage 14/28 V",
        "Bestellnr. 24/56 V",
        "Typ 24/56 V",
        "Art. 24/56 V",
        "Karton 24/56 V",
        "Ladespannung 14/28 V",
        "Bestelnummer 24/56 V",
        "Laadspanning 14/28 V",
        "Réf. 24/56 V",
        "Modelo 24/56 V",
        "Codice 24/56 V",
        "Numer 24/56 V",
        "Ładowanie 14/28 V",
        "Código 24/56 V",
        "Číslo zboží 24/56 V",
        "Varenr. 24/56 V",
    ],
)
def test_volts_in_a_code_or_of_charging_are_no_range(body):
    assert "tracking_min_v" not in inverter_of("Inverter 500 W", body)


@pytest.mark.parametrize("body", ["Type B, 24/56 V", "No. 5, MPPT 24/56 V", "Eingang 24/56 V", "Entrée 24/56 V"])
def test_a_code_in_another_part_keeps_the_range(body):
    found = inverter_of("Inverter 500 W", body)
    assert (found["tracking_min_v"], found["tracking_max_v"]) == (24, 56)
