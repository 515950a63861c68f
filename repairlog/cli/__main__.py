"""`python -m repairlog.cli` is `repairlog`."""

from repairlog.cli import main

main()
