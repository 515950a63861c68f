"""RepairLog: the book of record of a gas distribution operator."""

__version__ = "0.1.0"
