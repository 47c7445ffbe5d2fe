"""The words of adverts, language by language."""

from service.data.advert_words.table import load_advert_words

__all__ = ["load_advert_words"]
