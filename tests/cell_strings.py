"""What does a panel give whose rows of cells get unlike light? An outside calculation, cell by cell, by single diodes.

A cell: light current less a diode's less a shunt's, behind a series resistance; in the dark it goes far below nought
before it lets current through. Cells of a string share their current, so their voltages add up; halves of a section
share its voltage, so their currents add up; a section's bypass diode opens at half a volt below nought.
"""

import numpy as np

LIGHT_A, HEAT_V, SERIES_OHM, SHUNT_OHM, BYPASS_V = 13.9, 0.027, 0.0035, 20.0, -0.5
DARK_A = LIGHT_A / np.exp(0.69 / HEAT_V)  # so that a cell has some 0.69 V open
CURRENTS_A = np.linspace(-2.0, 15.0, 3401)
DIODE_V = np.concatenate([np.linspace(-30.0, 0.3, 1500), np.linspace(0.3, 0.8, 2000)[1:]])
COLUMNS = 6


def cell_v(light, area_share):
    """The voltage of one cell, or of a part of it, at each of the currents; ``light`` 0 to 1."""
    current = area_share * (light * LIGHT_A - DARK_A * np.expm1(DIODE_V / HEAT_V) - DIODE_V / SHUNT_OHM)
    return np.interp(-CURRENTS_A, -current, DIODE_V - current * SERIES_OHM / area_share)


def string_v(lights, area_share):
    levels, cells = np.unique(lights, return_counts=True)
    return sum(count * cell_v(level, area_share) for level, count in zip(levels, cells, strict=True))


def section_v(strings, area_share):
    """Parallel strings behind one bypass diode, at each of the currents."""
    if len(strings) == 1:
        return np.maximum(string_v(strings[0], area_share), BYPASS_V)
    volts = np.linspace(BYPASS_V, 25.0, 4000)
    current = sum(np.interp(-volts, -string_v(lights, area_share), CURRENTS_A) for lights in strings)
    return np.interp(-CURRENTS_A, -current, volts, left=BYPASS_V, right=volts[-1])


def most_w(sections, halves):
    """The greatest power of sections in series: each a list of its halves, each of these its cells' light."""
    return float((CURRENTS_A * sum(section_v(strings, 1.0 / halves) for strings in sections)).max())


def upright_w(rows_from_top, halves, sections=3):
    """Sections side by side; rows of whole cells (1) or of half cells in two halves (2), and their light."""
    in_halves = np.split(np.asarray(rows_from_top), halves)
    across = COLUMNS // sections
    return most_w([[np.repeat(rows, across) for rows in in_halves]] * sections, halves)


def lengthwise_w(rows_from_top, halves, sections=3):
    """Sections one above another, halves side by side; six rows and their light, nine cells of a row to each string."""
    of_sections = np.split(np.asarray(rows_from_top), sections)
    return most_w([[np.repeat(rows, 9)] * halves for rows in of_sections], halves)


def panel_w(light, orientation, halves):
    """A panel of any light by cell, rows from the top down and columns from left to right, in three sections.

    Upright sections are pairs of columns and halves lie one above the other, lengthwise the other way round.
    """
    across = light if orientation == "lengthwise" else light.T  # the sections' way first
    sections = [np.split(section, halves, axis=1) for section in np.split(across, 3, axis=0)]
    return most_w([[half.ravel() for half in section] for section in sections], halves)
