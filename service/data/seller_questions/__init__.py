"""What to ask a seller, in the seller's language."""

from service.data.seller_questions.table import load_seller_questions

__all__ = ["load_seller_questions"]
