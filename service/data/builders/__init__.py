"""How are the tables made? Scripts that need the extra ``tables``; nothing at run time imports them."""
