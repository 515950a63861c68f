"""The command `repairlog`: a table of subcommands, each imported only when it is called."""
