"""Of two figures of one rating, each with its conditions beside it, that at standard conditions is read."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def ratings(body):
    panel = read_advert(Advert(title="Solar panel", body=body), WORDS).panel
    names = ("rated_power_w", "open_circuit_voltage_v", "short_circuit_current_a", "max_power_voltage_v")
    return tuple(panel.get(name) for name in names)


@pytest.mark.parametrize(
    "body",
    [
        "Voc 37 V STC, 35 V NOCT. Isc 13.9 A STC, 11.2 A NOCT.",
        "Voc 35 V NOCT, 37 V STC. Isc 11.2 A NOCT, 13.9 A STC.",
        "Voc at NOCT 35 V, at STC 37 V. Isc at NOCT 11.2 A, at STC 13.9 A.",
        "Voc 37V STC 35V NOCT Isc 13.9A STC 11.2A NOCT",
        "Voc: 35V@NOCT; 37V@STC; Isc: 11.2A@NOCT; 13.9A@STC",
        "Voc STC/NOCT 37/35 V, Isc STC/NOCT 13.9/11.2 A",
        "Voc STC 37 V | NOCT 35 V\nIsc STC 13.9 A | NOCT 11.2 A",
        "Voc | 35 V NMOT | 37 V STC\nIsc | 11.2 A NMOT | 13.9 A STC",
        "Leerlaufspannung 35 V unter NOCT-Bedingungen und 37 V bei STC, Isc 11,2 A (NOCT) und 13,9 A (STC).",
        "Tension à vide 35 V en NOCT, 37 V en STC. Courant de court-circuit 11,2 A en NOCT, 13,9 A en STC.",
        "Tensione a vuoto 35 V NOCT e 37 V STC; corrente di corto circuito 11,2 A NOCT e 13,9 A STC.",
        "Napięcie obwodu otwartego 35 V (NOCT), 37 V (STC). Prąd zwarcia 11,2 A (NOCT), 13,9 A (STC).",
        "Tomgangsspænding 35 V ved NOCT, 37 V ved STC. Kortslutningsstrøm 11,2 A ved NOCT, 13,9 A ved STC.",
        "NOCT 45 °C; Voc 37 V; Isc 13.9 A",
    ],
)
def test_the_figure_at_standard_conditions_is_read(body):
    assert ratings(body)[1:3] == (37, 13.9)


def test_powers_and_volts_at_full_power_likewise():
    assert ratings("Pmax 300 W NOCT, 400 W STC; Vmp 29 V NOCT, 31 V STC") == (400, None, None, 31)


@pytest.mark.parametrize("body", ["Voc 35 V NOCT.", "Voc 35 V NMOT, Isc 11.2 A NMOT."])
def test_figures_at_other_conditions_alone_are_none_of_a_rating(body):
    assert ratings(body)[1:3] == (None, None)
