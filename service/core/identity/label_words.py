"""Which words on a label name which rating? English, German, French, Spanish, Italian and Dutch; accents left off.

Collected from the terms of IEC 61730-1 and EN 50380 labels in these languages and trade usage, from memory. A phrase is
a row of words as ``label_tokens`` cuts them; the longest phrase that fits wins.
"""

from collections.abc import Mapping, Sequence

from service.core.identity.label_tokens import Token

POWER, TOLERANCE, NOMINAL_CELL = "rated_power_w", "power_tolerance_pct", "nominal_cell_c"
VOC, ISC, VMP, IMP = (
    "open_circuit_voltage_v", "short_circuit_current_a", "max_power_voltage_v", "max_power_current_a",
)  # fmt: skip
SYSTEM, FUSE, WEIGHT, SIZE, CELLS, CODE = (
    "max_system_voltage_v", "max_series_fuse_a", "weight_kg", "size", "cells_visible", "model_code",
)  # fmt: skip

_PHRASES: Mapping[str, str] = {
    POWER: "pmax; pmpp; pmp; pm; pn; pnom; p max; p mpp; wp; ppeak; peak power; rated power; nominal power; "
    "maximum power; max power; power output; rated maximum power; rated max power; nennleistung; "
    "spitzenleistung; maximalleistung; leistung; maximale leistung; puissance maximale; puissance "
    "nominale; puissance max; puissance crete; puissance; potencia maxima; potencia nominal; potencia "
    "pico; potencia; potenza massima; potenza nominale; potenza di picco; potenza; maximaal vermogen; "
    "nominaal vermogen; piekvermogen; vermogen",
    VOC: "voc; uoc; v oc; u oc; open circuit voltage; leerlaufspannung; tension a vide; tension de circuit "
    "ouvert; tension en circuit ouvert; tension circuit ouvert; tension de circuito abierto; tension en "
    "circuito abierto; tension circuito abierto; voltaje de circuito abierto; voltaje en circuito "
    "abierto; voltaje circuito abierto; tensione a circuito aperto; tensione di circuito aperto; tensione "
    "a vuoto; nullastspanning; openklemspanning; open klemspanning",
    ISC: "isc; i sc; icc; short circuit current; kurzschlussstrom; kurzschlusstrom; courant de court circuit; "
    "courant court circuit; corriente de cortocircuito; corriente de corto circuito; corrente di "
    "cortocircuito; corrente di corto circuito; kortsluitstroom",
    VMP: "vmp; vmpp; ump; umpp; vpm; vpmax; vm; v mpp; u mpp; v mp; maximum power voltage; max power voltage; "
    "voltage at maximum power; voltage at max power; voltage at pmax; rated voltage; optimum operating "
    "voltage; operating voltage; nennspannung; mpp spannung; spannung bei maximaler leistung; spannung "
    "bei pmax; spannung im mpp; tension a puissance maximale; tension a pmax; tension a la puissance "
    "maximale; tension nominale; tension de maxima potencia; tension en el punto de maxima potencia; "
    "tension maxima potencia; voltaje a maxima potencia; tension nominal; tensione alla massima potenza; "
    "tensione di massima potenza; tensione nominale; spanning bij maximaal vermogen; mpp spanning; "
    "nominale spanning",
    IMP: "imp; impp; ipm; ipmax; im; i mpp; i mp; maximum power current; max power current; current at maximum "
    "power; current at max power; current at pmax; rated current; optimum operating current; operating "
    "current; nennstrom; mpp strom; strom bei maximaler leistung; strom bei pmax; strom im mpp; courant a "
    "puissance maximale; courant a pmax; courant a la puissance maximale; courant nominal; corriente de "
    "maxima potencia; corriente en el punto de maxima potencia; corriente maxima potencia; corriente a "
    "maxima potencia; corriente nominal; corrente alla massima potenza; corrente di massima potenza; "
    "corrente nominale; stroom bij maximaal vermogen; mpp stroom; nominale stroom",
    SYSTEM: "maximum system voltage; max system voltage; system voltage; vsys; vsyst; vmax; maximale "
    "systemspannung; max systemspannung; systemspannung; tension maximale du systeme; tension systeme "
    "maximale; tension systeme; tension maxima del sistema; tension maxima de sistema; tension del "
    "sistema; voltaje maximo del sistema; tensione massima di sistema; tensione massima del sistema; "
    "tensione di sistema; maximale systeemspanning; systeemspanning",
    FUSE: "maximum series fuse rating; max series fuse rating; maximum series fuse; max series fuse; series "
    "fuse rating; series fuse; fuse rating; fuse; maximum overcurrent protection rating; overcurrent "
    "protection; vorsicherung; maximale vorsicherung; maximale strangsicherung; strangsicherung; "
    "ruckstrombelastbarkeit; sicherung; fusible serie maximal; fusible en serie; fusible; calibre maximal "
    "du fusible; fusible maximo en serie; fusible maximo; fusibile in serie; fusibile massimo; fusibile; "
    "maximale serie zekering; serie zekering; zekering",
    TOLERANCE: "power tolerance; tolerance; leistungstoleranz; toleranz; tolerance de puissance; tolerancia de "
    "potencia; tolerancia; tolleranza di potenza; tolleranza; vermogenstolerantie; tolerantie; output "
    "tolerance",
    NOMINAL_CELL: "noct; nmot; tnoct; nominal operating cell temperature; nominal module operating temperature",
    WEIGHT: "weight; gewicht; poids; peso",
    SIZE: "dimensions; dimension; size; abmessungen; abmessung; mase; dimensiones; medidas; dimensioni; "
    "afmetingen",
    CELLS: "cells; cell; half cells; number of cells; zellen; zellenzahl; anzahl zellen; halbzellen; cellules; "
    "nombre de cellules; celulas; numero de celulas; celle; numero di celle; cellen; aantal cellen",
    CODE: "model; model no; model number; model type; module type; type; typ; modell; modelltyp; modultyp; "
    "modele; modelo; tipo; modello; part no; part number; artikel; typenummer",
}  # fmt: skip

# Word -> where the figures that follow were taken: at standard test conditions, or elsewhere.
STANDARD = frozenset({"stc"})
ELSEWHERE = frozenset({"noct", "nmot", "bnpi", "bsi", "bstc"})


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


# Beside a name: the most that something bears, of an inverter as a rule.
LIMITING = _words(
    "max maxi maximum maximal maximale maximaler maxima maximo massima massimo maximaal hochste hochstens limit "
    "limite limiti grenze grenzwert exceed uberschreiten less below under < > ≤ ≥ jusqu hasta fino"
)
# Beside a name: what somebody measured, reckoned or guessed.
HEDGING = _words(
    "about approx approximately around roughly circa ca etwa ungefahr environ unos aprox aproximadamente ongeveer "
    "measured measures gemessen gemessene mesure mesuree medido medida misurato misurata gemeten between "
    "zwischen entre tra tussen not nicht ~ ≈"
)
COMPARING = _words(
    "higher lower more less above below mehr weniger hoher niedriger moins mas menos piu meno meer minder than als"
)
PREPOSITIONS = _words(
    "( [ @ at bei a al en in bij op unter with con mit conditions condition cond bedingungen value values tc t ="
)
SAYING_AT = _words("at @ bei bij unter under a al")
# Words beside a figure that is that of several panels together; those that are so only with a number before them.
OF_SEVERAL = _words(
    "set sets satz lot total together both pair insgesamt gesamt zusammen ensemble beide paar paire twin "
    "doppelpack doppel komplettset komplettsets"
)
COUNTS = _words(
    "two three four zwei drei vier deux trois quatre due tre quattro dos tres cuatro twee drie duas dva dwa"
)
OF_SEVERAL_COUNTED = _words(
    "panels modules module panneaux modulen pannelli moduli paneles modulos paineis panelen er pieces stuck pcs"
)
# Words that tell whose figures follow on the line.
OF_INVERTERS = _words(
    "inverter inverters microinverter microinverters wechselrichter mikrowechselrichter onduleur onduleurs inversor "
    "microinversor omvormer mppt tracker trackers input inputs eingang eingange eingangsspannung eingangsstrom entree "
    "entrees entrada entradas ingresso ingressi ingang ingangen string strings strang strange array battery batterie "
    "bateria batteria accu controller laderegler"
)
OF_PANELS = _words(
    "module modules modul module panel panels panneau panneaux paneel panelen panele modulo moduli modulos solarmodul "
    "solarpanel label etikett typenschild"
)
JOINING = _words("per je pro par por each of the an am at dc pv")


def _split() -> Mapping[tuple[str, ...], str]:
    return {tuple(phrase.split()): what for what, text in _PHRASES.items() for phrase in text.split("; ")}


PHRASES: Mapping[tuple[str, ...], str] = _split()
LONGEST_PHRASE = max(len(words) for words in PHRASES)
FIRST_WORDS = frozenset(words[0] for words in PHRASES)
_JOINS = frozenset({"-", ".", "_"})
# What may stand between a name and its figure without telling that the figure is another's.
_FILLING = _words(
    "is are has of the an at bei ist von der die das de la le du des el il di del della een van het und and dc w wp v "
    "vdc a adc am stc in on en to with by rated nominal nenn typ typical value label printed says"
)
KNOWN = frozenset(word for words in PHRASES for word in words) | _FILLING | STANDARD | ELSEWHERE | PREPOSITIONS


def phrase_at(tokens: Sequence[Token], at: int) -> tuple[str, int]:
    """What the longest phrase that begins at a token names, and how many tokens it takes; ("", 0) where none does."""
    if at >= len(tokens) or tokens[at].text not in FIRST_WORDS:
        return "", 0
    words: list[str] = []
    best, place = ("", 0), at
    while place < len(tokens) and len(words) < LONGEST_PHRASE:
        text = tokens[place].text
        if text in _JOINS and words:
            place += 1
            continue
        if not text.isalpha():
            break
        words.append(text)
        place += 1
        found = PHRASES.get(tuple(words))
        if found:
            best = (found, place - at)
    return best
