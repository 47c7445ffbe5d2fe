"""The words of adverts, language by language."""

from service.data.advert_words.table import LANGUAGES, load_advert_words

__all__ = ["LANGUAGES", "load_advert_words"]
