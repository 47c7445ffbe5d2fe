"""What happens in the first minutes after plugging in, and what does not? Figures of the standards are from memory."""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "first_minutes": "After plugging in nothing comes at first: the inverter measures voltage and frequency for a "
    "minute or more, clicks, and then gives power that rises slowly. Lamps and display tell of waiting, not of a "
    "fault.",
    "en_50549": "Europe, EN 50549-1 as first set (from memory): after parting from the grid the inverter gives "
    "again when for at least 60 s the voltage lay between 85 and 110 % of the nominal one (196 to 253 V at 230 V) "
    "and the frequency between 49.5 and 50.2 Hz; when it is switched on for the first time, up to 50.1 Hz. After a "
    "trip power rises by at most 10 % of the rating a minute, so that full sun is reached after some ten minutes. "
    "National rules may set other figures.",
    "vde_ar_n_4105": "Germany, VDE-AR-N 4105 (from memory): it parts from the grid above 110 % of 230 V (253 V) as "
    "a ten-minute mean, at once above 125 % and after some seconds below 80 %, and outside 47.5 to 51.5 Hz; it "
    "comes back after at least 60 s.",
    "ieee_1547": "United States, IEEE 1547-2018 as first set (from memory): it comes in when for 300 s the voltage "
    "lay between 91.7 and 105 % of the nominal one (110 to 126 V at 120 V) and the frequency between 59.5 and 60.1 "
    "Hz. Five minutes of waiting are usual.",
    "as_4777": "Australia, AS/NZS 4777.2 (from memory): it watches the grid for at least 60 s before it gives.",
    "outage": "In an outage it gives nothing, whatever the sun: it must not feed a dead line. It is no emergency "
    "supply.",
    "unplugged": "Pull the plug and it stops at once; when it is back in, the waiting begins anew.",
    "dull_start": "On a dull day or early in the morning it may not start at all: its inputs need a least voltage "
    "and some light. Try again in sun before you look for faults.",
    "less_than_rated": "The rated power of the panels is hardly ever reached: it is told for a light and a coolness "
    "that real days seldom have, and the inverter's limit cuts what is above it.",
    "trips_at_noon": "If it drops out again and again around sunny noons, the voltage of the house is high: read it "
    "at the socket and let an electrician look at circuit and lead.",
}
