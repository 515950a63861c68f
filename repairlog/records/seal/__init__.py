"""The seal: an entry as one line of canonical JSON, the tree over all lines, and digests of what may be removed.

Pure: nothing here reads a clock, a file or a database, except that `new_salt` draws from the system's randomness.
"""

from repairlog.records.seal.line import NotSealable, canonical
from repairlog.records.seal.private import digest_of_private, new_salt
from repairlog.records.seal.tree import EMPTY, Frontier, from_bytes, grown, leaf, node, root, to_bytes

__all__ = [
    "EMPTY",
    "Frontier",
    "NotSealable",
    "canonical",
    "digest_of_private",
    "from_bytes",
    "grown",
    "leaf",
    "new_salt",
    "node",
    "root",
    "to_bytes",
]
