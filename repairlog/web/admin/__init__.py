"""For whoever keeps the books: people and crews, instruments, operating areas."""
