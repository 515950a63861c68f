"""Pages on which a supervisor says whether work stands."""
