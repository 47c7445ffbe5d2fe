"""What is said of a panel that is being identified: candidates, doubts, what to read next.

Keys: ``candidate.found_in.variant``, ``source.found_in``, ``doubt.code``, ``read.field``, ``name.field``.
"""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "candidate.label": "The panel of the label, if it was read rightly. What it does not say reaches over all "
    "builds that agree with it.",
    "candidate.public_list": "{cells} cells in series: {entries} entries of the public list, of {makers} "
    "makers, agree. The list ends in 2019: right for used panels.",
    "candidate.public_list.any": "{entries} entries of the public list agree. The list ends in 2019: right "
    "for used panels.",
    "candidate.public_list.by_code": "The public list has this model code. A code is a claim of whoever wrote "
    "it, not a proof: compare the label.",
    "candidate.class": "{cells} cells in series of {cell}: worked out from the size and the kinds of such cells.",
    "candidate.class.any": "Any panel of this power: no common build agrees, so the ranges are wide.",
    "source.label": "the text that was sent",
    "source.public_list": "public panel list of the California Energy Commission, edition of January 2019, as "
    "packaged with pvlib",
    "source.class": "cell sizes and kinds of cells, trade figures, from memory",
    "doubt.not_at_stc": "The label's {name} of {measured} {unit} holds at other than standard test "
    "conditions, so it was not taken. Read the column headed STC.",
    "doubt.unclear_which": "The figure of {measured} {unit} can belong to {name} or to another name beside it that has "
    "no figure, so it was not taken. Please send it as a field.",
    "doubt.illegible_figure": "The figure of the {name} has a letter in it where a digit should be ({measured} "
    "{unit}?), so it was not taken. Please type it.",
    "doubt.limit_not_rating": "{measured} {unit} is written as a limit and not as the panel's {name}, so it was not "
    "taken. Please send the rating as a field.",
    "doubt.not_the_panels": "{measured} {unit} stands beside words of an inverter, so it was not taken as the panel's "
    "{name}. Please send the panel's as a field.",
    "doubt.not_a_rating": "The {name} of {measured} {unit} is told as a range, a guess or something measured, so it "
    "was not taken. Please read what is printed.",
    "doubt.several_models": "The sheet has {measured:.0f} columns or rows of models; none was taken. Please send the "
    "rated power or the model code of yours.",
    "doubt.column_taken": "Of {high:.0f} columns or rows of models, number {measured:.0f} was taken: it has the rated "
    "power or the model code that you sent.",
    "doubt.said_twice": "The label tells the {name} more than once, and differently ({measured} {unit} too). Please "
    "read it again, and send yours as a field.",
    "doubt.out_of_bounds": "{measured} {unit} cannot be the {name} of a panel, so it was not taken. Please "
    "read it again.",
    "doubt.differs_from_request": "The label's {name} is {measured} {unit}, your request says {low}. Yours "
    "was taken; please compare.",
    "doubt.voltages_swapped": "The voltage at rated power ({measured} V) is not below the open-circuit "
    "voltage ({high} V). They may be swapped.",
    "doubt.currents_swapped": "The current at rated power ({measured} A) is not below the short-circuit "
    "current ({high} A). They may be swapped.",
    "doubt.power_product": "Voltage times current at rated power make {measured:.0f} W, the rated power "
    "should lie between {low:.0f} and {high:.0f} W of it. One of them is misread or misprinted.",
    "doubt.fill_factor": "Power over open-circuit voltage and short-circuit current is {measured:.2f}; panels "
    "have {low} to {high}. One of the three is misread, or they belong to different panels.",
    "doubt.voltage_per_cell": "The voltage makes {measured:.2f} V a cell; silicon cells have {low} to {high} "
    "V. Count the cells again, or read the voltage again.",
    "doubt.half_cells_counted": "The voltage makes {measured:.2f} V a cell, half of what cells have: these "
    "may be cut cells in two parallel halves. Send the count as visible cells.",
    "doubt.code_power": "The public list has this model code with {measured:.0f} W, not with the rated power "
    "given. The code or the power belongs to another panel.",
    "doubt.code_not_listed": "The public list does not have this model code. It ends in 2019, so that says little.",
    "doubt.nothing_agrees": "No listed panel and no common build agree with all that was said. Please check "
    "the power, the size and the count of cells.",
    "doubt.nothing_read": "Nothing could be read in the label's text. Name and figure should stand beside each other, "
    "such as “Voc 40.9 V”.",
    "read.rated_power_w": "Read the rated power (Pmax, in W): nothing can be said without it.",
    "read.open_circuit_voltage_v": "Read the open-circuit voltage (Voc or Uoc, in V): the inverter's voltage "
    "limit hangs on it.",
    "read.short_circuit_current_a": "Read the short-circuit current (Isc, in A): the inverter's current limit "
    "hangs on it.",
    "read.max_power_voltage_v": "Read the voltage at rated power (Vmp or Umpp, in V).",
    "read.max_power_current_a": "Read the current at rated power (Imp or Impp, in A).",
    "read.cells_visible": "Count the cells that you see, all rows times all columns.",
    "read.length_mm": "Measure length and width of the frame, to the millimetre if you can.",
    "read.model_code": "Read the model code. It is a claim, but it may be on the public list.",
    "read.max_series_fuse_a": "Read the largest series fuse (A): it decides where three or more panels lie in "
    "parallel.",
    "read.max_system_voltage_v": "Read the greatest system voltage (V).",
    "name.rated_power_w": "rated power",
    "name.open_circuit_voltage_v": "open-circuit voltage",
    "name.short_circuit_current_a": "short-circuit current",
    "name.max_power_voltage_v": "voltage at rated power",
    "name.max_power_current_a": "current at rated power",
    "name.voc_coefficient_pct_per_k": "change of voltage per kelvin",
    "name.isc_coefficient_pct_per_k": "change of current per kelvin",
    "name.power_coefficient_pct_per_k": "change of power per kelvin",
    "name.cells_visible": "number of cells",
    "name.cells_in_series": "number of cells in series",
    "name.length_mm": "length",
    "name.width_mm": "width",
    "name.weight_kg": "weight",
    "name.max_system_voltage_v": "greatest system voltage",
    "name.max_series_fuse_a": "largest series fuse",
    "name.model_code": "model code",
    "name.nominal_cell_c": "nominal cell temperature",
}
