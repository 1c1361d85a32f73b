"""Several storeys on one sheet: the drawings found on it, their titles, which is which level, how they lie."""
