"""What is said of an advert that gives cause for doubt. Keys: ``doubt.code``."""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "doubt.wanted_ad": "Somebody wants to buy; nothing is on offer here.",
    "doubt.service": "Work is offered, not goods.",
    "doubt.nothing_described": "The text does not say what is on offer.",
    "doubt.not_photovoltaic": "This heats water; it makes no electricity.",
    "doubt.other_goods": "Neither panel nor inverter: other goods.",
    "doubt.camping_12v": "A panel for 12 V or camping. Compare its voltages with the inverter's window before you buy.",
    "doubt.off_grid_inverter": "An inverter that is not made for the grid. It must not be plugged into a home's "
    "socket.",
    "doubt.string_inverter": "It starts only at the voltage of many panels in series; one or two panels will not do.",
    "doubt.output_limited": "It is held below its rating. Ask whether and by whom the limit can be lifted.",
    "doubt.account_bound": "It is tied to somebody's account. Have the seller release it before you pay.",
    "doubt.no_grid_certificate": "The seller says that a certificate for the grid is lacking. Ask your grid "
    "operator first.",
    "doubt.unsafe_practice": "A lead with two plugs has bare live pins. Do not use it.",
    "doubt.rating_conflict": "Two values of one rating or limit are stated. Ask for a picture of the label.",
    "doubt.power_conflict": "Two powers are stated. Ask for a picture of the label.",
    "doubt.power_of_several": "No single panel has so much power. Ask of how many it is, and for the label of one.",
    "doubt.price_conflict": "The price field and the text tell different prices. Ask which one holds.",
    "doubt.power_vs_vi": "Voltage, current and power do not go together. One of them is wrong: ask for the label.",
    "doubt.voc_vs_cells": "The open-circuit voltage cannot come from so many cells. Ask for the label.",
    "doubt.isc_not_above_imp": "The short-circuit current is not above the current at rated power. They may be "
    "swapped.",
    "doubt.power_vs_area": "So much power does not fit on so small a panel. Ask for the label.",
    "doubt.measured_not_rated": "A meter reading is told, not the rating. Ask for the label.",
    "doubt.shock_or_fire": "A shock, a switch that trips, a fault to earth or something hot or burnt is told of. "
    "Measure from each lead to the frame, and look at every plug, before you pay.",
    "doubt.untested": "Nobody says that it works. Measure before you pay.",
    "doubt.part_damaged": "Some of the pieces are damaged. Look at each one.",
    "doubt.minimum_order": "More than one piece must be taken.",
    "doubt.sold": "It is sold already. Ask before you set out whether any is left.",
    "doubt.reserved": "It is reserved for somebody.",
    "doubt.too_cheap": "The price is far below what such panels cost. See the goods before you pay.",
    "doubt.advance_payment": "Money is wanted before the goods. Pay at the door, once you have measured.",
    "doubt.contact_off_site": "You are to write outside the site, where it cannot protect you.",
    "doubt.no_viewing": "You are not to see the goods before you pay. Do not pay unseen.",
    "doubt.no_photos": "There are no pictures of the goods. Ask for one with the label.",
    "doubt.stock_photo": "The pictures do not show these goods. Ask for one with the label.",
    "doubt.pressure": "You are hurried. Take your time.",
    "doubt.no_invoice": "There is no invoice, or serial numbers are lacking. Ask where the goods come from.",
    "doubt.label_removed": "The label was taken off. Ask for another picture, and where the goods come from.",
    "doubt.same_advert_again": "The same words stand in another advert that you sent. Ask which one is true.",
    "doubt.far_under_others": "A watt costs less than half of what the others that you sent ask. Find out why.",
    "doubt.hostile_content": "The text holds markup, hidden signs, instructions or repetition. It was read as "
    "mere text.",
}
