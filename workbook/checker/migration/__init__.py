"""How the tables of the record came to be, step by step, for databases of any age."""
