"""Sunsill: is this plug-in solar set worth buying for this home?

The rooms, from the street inwards:

- ``command_line``, ``openapi``, ``bench``: the command line, the interface document, the measurements.
- ``app``: puts the parts together; ``settings``: what the operator may set.
- ``api``: HTTP. It speaks, and never computes.
- ``data``: the only code that opens files; each table beside its loader.
- ``core``: pure functions and frozen values. Same input, same output.

Numbers are computed in ``core``, files are read in ``data``, words are spoken in ``api``, and only
``app`` knows all three. Imports point inwards only; import-linter keeps it so.
"""

__version__ = "0.1.0"
