"""Plain adverts in all languages, beside which sentences are put that may tell something of the goods or not."""

TWO_PANELS = {
    "en": "Two used solar panels, 400 W, £40 each.", "de": "Zwei gebrauchte Solarmodule 400 W, je 40 Euro.",
    "fr": "Deux panneaux solaires d'occasion de 400 W, 40 euros pièce.",
    "es": "Dos placas solares usadas de 400 W, 40 euros cada una.",
    "it": "Due pannelli solari usati da 400 W, 40 euro l'uno.",
    "nl": "Twee gebruikte zonnepanelen van 400 W, 40 euro per stuk.",
    "pl": "Dwa używane panele 400 W, 150 zł za sztukę.", "cs": "Dva použité panely 400 W, 900 Kč za kus.",
    "da": "To brugte solpaneler på 400 W, 300 kr. stykket.",
    "pt": "Dois painéis solares usados de 400 W, 40 euros cada.",
}  # fmt: skip
ONE_INVERTER = {
    "en": "Used micro inverter 800 W, £40.", "de": "Mikrowechselrichter 800 W gebraucht, 40 Euro.",
    "fr": "Micro-onduleur 800 W d'occasion, 40 euros.", "es": "Microinversor 800 W usado, 40 euros.",
    "it": "Microinverter 800 W usato, 40 euro.", "nl": "Micro-omvormer 800 W gebruikt, 40 euro.",
    "pl": "Mikroinwerter 800 W używany, 160 zł.", "cs": "Použitý mikroměnič 800 W, 900 Kč.",
    "da": "Brugt mikroinverter 800 W, 300 kr.", "pt": "Microinversor 800 W usado, 40 euros.",
}  # fmt: skip
