"""What do the cautions say? One sentence or two a code, in English; when each is said stands in data/cautions."""

from collections.abc import Mapping
from types import MappingProxyType

TEXTS: Mapping[str, str] = MappingProxyType(
    {
        "dc_over_voltage": (
            "Too many volts on a cold bright morning destroy an inverter at once and may start a fire. Until the "
            "cold voltage is known to fit, do not connect."
        ),
        "rule_unknown": (
            "No published rule found for plugging in here. Treat as not permitted until the grid operator "
            "confirms in writing."
        ),
        "cap_exceeded": (
            "The power is above the cap published here, other sets counted. Do not connect by plug; ask for a "
            "wired, notified installation."
        ),
        "storage": (
            "Storage is outside the plug-in rules read (Germany 2025, UK draft 2026); d.c.-side storage has input"
            " limits of its own. Get its own proof; never below freezing or in escape routes."
        ),
        "damaged_battery": (
            "Do not buy, charge or store a swollen, wet or dropped lithium battery indoors. It can burn without "
            "warning."
        ),
        "grid_protection": (
            "An inverter without a certificate may keep feeding in a power cut and shock line workers. Do not "
            "plug it in."
        ),
        "unplug_decay": (
            "Ask for proof that pin voltage falls to 34 V or less within 1 s of unplugging and that feeding stops"
            " within 100 ms. No proof: treat as live."
        ),
        "dc_parallel": (
            "Parallel panels add up amps. Check the inverter's short-circuit limit. Three or more: if all others'"
            " current together exceeds the panel's series-fuse rating, each needs a fuse."
        ),
        "stolen_goods": "Ask for the invoice and the serial numbers. Without them you may lose both panel and money.",
        "recalled_type": (
            "Look up type and serial in the official product-safety list before you buy. Some inverters were sold"
            " without the mains relay they need."
        ),
        "second_hand_no_papers": (
            "A used inverter without papers for this country may be refused by the operator and the insurer."
        ),
        "thin_film": (
            "Some thin-film or rear-contact panels need an earthed pole or a separated inverter. Check before pairing."
        ),
        "foreign_profile": (
            "An inverter set for another country can trip or break grid rules, and often only its first owner can"
            " change that. Ask before you buy."
        ),
        "grid_protection_not_shock": (
            "Grid protection stops feeding in a power cut. It is not protection against electric shock at the plug."
        ),
        "landlord": (
            "Ask owner or co-owners first, in writing. A court has ordered removal where consent, insurance and "
            "proper fixing were missing."
        ),
        "roof_set_present": (
            "A second set can end a netting right or a pay contract, and it adds to the cap. Ask the operator "
            "before you buy."
        ),
        "glass_type": (
            "Toughened glass breaks all at once into crumbs that fall in clumps; two-glass panels tend to stay in"
            " one piece. Weigh this above walkways."
        ),
        "no_island": (
            "In a power cut a plug-in set stops by design, so that nobody working on the lines is shocked. It is "
            "no emergency supply."
        ),
        "licensed": (
            "This is no substitute for local codes or a licensed electrician. In doubt, have it checked before "
            "plugging in."
        ),
        "second_hand_rights": (
            "A maker's warranty often stays with the first buyer, and a private seller may exclude returns. Get "
            "type, serials and state in writing."
        ),
        "heritage": "Facade rules may forbid what the electrical rule admits. Ask the town hall.",
        "phases": (
            "The set feeds one phase. On this meter only what runs on that phase counts as its use; ask if phases"
            " can be summed, as is common."
        ),
        "damaged_panel": (
            "Cracked glass, torn back, brown spots, bubbles or melted plastic: shock and fire. Do not touch its "
            "metal in daylight, do not measure it, do not buy it, not even cheaply."
        ),
        "backsheet_cracks": (
            "A cracked back lets current out when wet. Rub it with a finger: chalk or cracks mean leave it, at "
            "any price."
        ),
        "meter_leads": "Look where the red lead sits. In the amp jack a voltage reading is a short circuit.",
        "meter_isc_time": (
            "Join with the panel covered, uncover, read within 10 s, cover again, then part. Pulling probes apart"
            " in sun draws an arc."
        ),
        "meter_isc_fuse": (
            "Many panels give 12 to 18 A, many meters are fused at 10 A. Use a d.c. clamp meter, or do not "
            "measure short-circuit current."
        ),
        "no_label": "No readable label, no voltage limits: the match cannot be checked. Do not connect by guess.",
        "open_bypass_diode": (
            "Volts and amps can look perfect with a dead bypass diode; the first shade then burns a cell. Test "
            "each diode in the dark."
        ),
        "carry_alone": (
            "Panels weigh 20 to 30 kg and catch the wind. Carry with two people, gloves and shoes, on edge, never"
            " by leads or box."
        ),
        "meter_rating": "Use a meter and leads rated above the voltage you may meet, category II or better, undamaged.",
        "cadmium": "Broken cadmium-telluride panels are hazardous waste: do not saw, burn or bin them.",
        "faulty_panel_stays_off": (
            "A share of faulty panels is only reckoned with, not found. Measure each panel before you pay; one that "
            "fails stays off the wall, also for the time being."
        ),
        "own_transport": (
            "You fetch the panels: upright and strapped, glass to glass with soft layers. A flat ride without support "
            "cracks cells that no eye sees."
        ),
        "transport": (
            "Carry panels upright and strapped, glass to glass with soft layers, never flat on a roof rack "
            "without support."
        ),
        "wind_load": (
            "Wind pulls as well as pushes. Fixing, railing and building must carry the gust load of the place; "
            "ask for the mount's proof."
        ),
        "railing_strength": (
            "The railing must hold panel, wind and people leaning on it. Unknown: ask the owner or a structural "
            "engineer."
        ),
        "falling_glass": (
            "A panel or its glass may fall on people. Secure with a second tie such as a steel rope, or choose "
            "glass-free or lighter panels."
        ),
        "foothold": (
            "A tilted panel or a bracket inside the rail is a ladder for children. Keep it outside or out of "
            "their reach."
        ),
        "fire_cladding": (
            "Do not mount on or near combustible cladding, reed or dry plants. Leave an air gap and keep the "
            "inverter on bare, non-burning ground."
        ),
        "escape_route": (
            "Keep escape and rescue routes free: no panel across a window or balcony that may serve as the second"
            " way out."
        ),
        "old_connectors": (
            "Old plugs without a lock pull apart under load and arc. Re-end both halves with one maker's parts "
            "and tool, panel covered."
        ),
        "outdoor_socket": (
            "Use only an outdoor socket with a lid and with a 30 mA residual-current device; keep the joint off "
            "the floor and out of puddles."
        ),
        "clamp_zone": (
            "Fix only where the panel maker allows. A drilled or wrongly clamped frame can fail in wind and voids"
            " its rating."
        ),
        "railing_tilt": (
            "Tilting out multiplies the wind load and the lever on the railing. High up, mount flat against it."
        ),
        "ballast": (
            "Ballast must match wind and roof strength; a loose panel is a sail. Check the roof load before "
            "adding stones."
        ),
        "lightning_rods": (
            "Has the house lightning rods? Metal near them needs the distance or bond that their planner gives. "
            "Ask before fixing."
        ),
        "dc_arc": (
            "A panel in daylight is live. Never pull d.c. connectors under load, the arc does not go out: stop "
            "the inverter, unplug the a.c. side, cover the panel, then part them."
        ),
        "fall_from_height": (
            "Never lean over a railing with a panel in your hands. Two people, a rope on the panel, no wind, no "
            "thunder, the area below closed."
        ),
        "dc_series": (
            "Panels in series add up volts: two can pass 100 V on a cold day, and shock hazard begins near 120 V "
            "d.c., less when wet."
        ),
        "polarity": (
            "Leads that were cut or re-ended may be reversed. Check polarity with a meter before joining anything."
        ),
        "rail_glass": "Never clamp to railing glass or lean a panel on it; heat and load behind it can crack it.",
        "connector_makes": (
            "Connectors that fit are not therefore a match. Mixed makes heat up and have caused fires; use both "
            "halves of one maker and type."
        ),
        "thunder": "Stop work and keep off roof, balcony and metal parts while thunder can be heard.",
        "y_lead": (
            "Use Y leads made for the sum of the currents, all connectors of one make. Measure before joining: a "
            "panel put in series by mistake doubles the volts."
        ),
        "connector_lock": (
            "Push until both locks click, then pull to test: a half-seated joint can arc. Cap open connectors and"
            " keep joints dry; water inside ends in corrosion and arcs."
        ),
        "lead_edges": (
            "Never run leads over sharp metal or pinch them in a window or door: for that a flat window lead is "
            "made. Leave a drip loop and use clips that stand the sun."
        ),
        "no_home_plug": "Do not fit a household plug to an inverter made for fixed wiring. It has no touch protection.",
        "pins_live": (
            "The pins of a plain plug can be live for a moment, or longer after a fault, when pulled out. Never "
            "touch them; use a set with touch protection."
        ),
        "old_wiring": (
            "Old or unknown wiring: have an electrician test the circuit, its earth, residual-current device and "
            "socket before anything is fed into it."
        ),
        "rcd_missing": (
            "No 30 mA residual-current device on the circuit, or nobody knows: have an electrician look and fit "
            "one before use."
        ),
        "two_plug_lead": "A lead with a plug at each end has live bare pins. Never make, buy or use one.",
        "open_ac_end": (
            "With through connectors the free a.c. end of an inverter is live while the other is plugged in. "
            "Close it with the maker's cap first."
        ),
        "shared_neutral": (
            "If circuits share a neutral, feeding in can overload it with no breaker noticing. Ask an electrician"
            " first."
        ),
        "no_strip": (
            "Plug straight into one sound wall socket. Strips, reels, adapters and chained leads can overheat and"
            " burn; an energy meter counts as an adapter."
        ),
        "one_set_one_socket": (
            "The breaker does not see current fed in behind it. Set plus appliance can overload the wires. One "
            "set to a circuit, no heavy loads beside it."
        ),
        "rcd_type": (
            "A transformerless inverter may leak d.c. that blinds ordinary residual-current devices. Follow the "
            "maker: type A with proof, else type B."
        ),
        "rcd_direction": (
            "Some residual-current breakers and receptacles are made for one direction of flow and can fail when "
            "fed from the load side. Ask an electrician."
        ),
        "arc_breaker": (
            "Many arc-fault and ground-fault breakers and receptacles are made for one direction. Ask their maker"
            " before feeding in."
        ),
        "reversing_meter": (
            "A meter that turns backwards may be an offence or breach of contract. Tell the grid operator first; "
            "some places tolerate it until the swap."
        ),
        "one_way_meter": (
            "Some electronic meters bill export as use. Ask for a two-way setting before the first sunny day."
        ),
        "shed_feeder": (
            "Long thin cable lifts the voltage until the inverter trips at noon. Have the socket's voltage and "
            "cable measured first."
        ),
        "window_lead": (
            "Through a window or door: only a flat lead made for that voltage and current, on its own seal. Renew"
            " it when kinked."
        ),
        "notify": "Announce the set where the card says. Undeclared sets have led to back charges and fines.",
        "wet_hands": "Do not plug, unplug or measure with wet hands, barefoot or in rain.",
        "live_frame": (
            "A frame that tingles is a fault. Unplug the a.c. side, touch nothing metal, cover the panel, and do "
            "not use it again."
        ),
        "fire_response": (
            "Smoke or fire: call the fire service and say that there are solar panels; leads stay live in "
            "daylight. Do not spray water at live parts."
        ),
        "no_open_inverter": "Do not open the inverter: its capacitors stay charged and its seal is lost.",
        "socket_warm": (
            "Feel the plug and socket after an hour of full sun. Hot, brown or crackling: unplug by the switch or"
            " breaker and call an electrician."
        ),
        "measuring_adapter": (
            "A plug-in energy meter is an adapter too: only a 16 A type, indoors, made to count feed-in. Feel it "
            "after an hour of sun."
        ),
        "wet_trip": (
            "If the residual-current device trips on wet mornings, do not reset again and again: find the panel "
            "or joint that leaks and take it out."
        ),
        "children": "Keep leads, plug and hot panel backs out of reach of children and pets.",
        "snow_slide": "Snow leaves glass all at once. Keep people and fragile things from under it.",
        "hot_surfaces": (
            "Panel backs and inverters can pass 60 C in sun. Let them cool; keep children, bedding and cables away."
        ),
        "fire_behind": "Keep the space behind open and clean. Heat, leaves and nests behind a panel feed a fire.",
        "insurance": "Ask the insurer in writing that the set and damage by a falling panel are covered.",
        "inverter_place": "Give the inverter shade and air. In a closed box it throttles, ages and may trip.",
        "cleaning": (
            "Clean from the ground with cool water in the morning or evening, unplugged. Cold water on hot glass "
            "can crack it."
        ),
        "theft": "Lock the frames, photograph the serial numbers, tell the contents insurer.",
        "glare": (
            "Look once at low sun where the glass mirrors. If it dazzles, turn the panel a few degrees or choose "
            "matt glass."
        ),
        "hum": "Some inverters hum at noon. Mount it on rubber, away from bedrooms.",
        "radio_noise": (
            "Radio or internet disturbed in sunshine? Switch the set off to prove it; shorten and twist leads, "
            "then ask the maker or the radio authority."
        ),
        "glass_cut": (
            "Broken glass: wear cut-proof gloves and eye protection, crumbs fly. The panel is still live in daylight."
        ),
        "retighten": "Check screws, hooks and ropes after the first storm and every spring.",
        "hail": (
            "After hail look for cracks with a torch held flat to the glass. The usual test is with 25 mm ice; "
            "larger hail is outside it."
        ),
        "move_out": (
            "To take down: stop and unplug the a.c. side, cover panels, part d.c. joints, cap them, then loosen "
            "the mount."
        ),
        "end_of_life": (
            "In the EU old panels are electrical waste with free take-back for homes. Keep them dry and unbroken "
            "until then."
        ),
    }
)
